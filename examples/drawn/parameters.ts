/** What describes one drawn foot. Angles in degrees, lengths in millimetres. */
export interface FootParameters {
  /** Scale of the bones and of the soft tissue; 1 is a cob. Lengths below are as they are, not scaled. */
  size: number;
  /** Bones at size 1: dorsal length and solar margin of P3, joint centre to joint centre of P2 and of P1. */
  p3Dorsal: number;
  p3Solar: number;
  p2Length: number;
  p1Length: number;
  /** Angle inside P3 between its dorsal face and its solar margin. */
  p3Angle: number;
  palmarAngle: number;
  /** Dorsal face of P3 minus outer wall, where the wall is old (or all of it, without a growth ring). */
  rotation: number;
  /** The same for the wall above the growth ring, and how far below the hairline the ring lies. */
  newRotation?: number;
  grownOut?: number;
  founderDistance: number;
  /** From the hairline down the wall to the firm horn. */
  softCoronet: number;
  /** Square to P3: bone to outer wall at the upper dorsal point; bone to inner horn at both. */
  hornLamellar: number;
  lamellarUpper: number;
  lamellarLower: number;
  soleTip: number;
  soleWing: number;
  /** Air under the sole below the tip. */
  cup: number;
  heelSurplus: number;
  toeLength: number;
  bearingLength: number;
  /** How far the wall's rolled edge carries the breakover behind its dorsal contact. */
  breakoverBack: number;
  heelAngle: number;
  coronetAngle: number;
  /** Slopes of P2, P1 and the cannon bone. */
  middleAngle: number;
  proximalAngle: number;
  cannonAngle: number;
}

export const soundCob: FootParameters = {
  size: 1.04,
  p3Dorsal: 50.5,
  p3Solar: 79,
  p2Length: 44,
  p1Length: 75,
  p3Angle: 47.5,
  palmarAngle: 5,
  rotation: 0,
  founderDistance: 4,
  softCoronet: 10,
  hornLamellar: 16,
  lamellarUpper: 6.7,
  lamellarLower: 6.9,
  soleTip: 16,
  soleWing: 18.5,
  cup: 2,
  heelSurplus: 2.5,
  toeLength: 84.2,
  bearingLength: 133,
  breakoverBack: 2,
  heelAngle: 49,
  coronetAngle: 22.5,
  middleAngle: 53.5,
  proximalAngle: 51.5,
  cannonAngle: 86,
};
