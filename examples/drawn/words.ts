import type { FootParameters } from './parameters.ts';

const named: Record<keyof FootParameters, readonly [words: string, unit: string]> = {
  size: ['size of the bones, cob = 1', ''],
  p3Dorsal: ['dorsal length of P3 at size 1', ' mm'],
  p3Solar: ['solar margin of P3 at size 1', ' mm'],
  p2Length: ['coffin centre to pastern centre at size 1', ' mm'],
  p1Length: ['pastern centre to fetlock centre at size 1', ' mm'],
  p3Angle: ['angle of P3 between dorsal face and solar margin', ' deg'],
  palmarAngle: ['palmar angle', ' deg'],
  rotation: ['dorsal face of P3 minus outer wall', ' deg'],
  newRotation: ['dorsal face of P3 minus new growth of the wall', ' deg'],
  grownOut: ['hairline to growth ring', ' mm'],
  founderDistance: ['firm wall above the extensor process', ' mm'],
  softCoronet: ['hairline to firm wall, along the wall', ' mm'],
  hornLamellar: ['P3 to outer wall at the upper dorsal point', ' mm'],
  lamellarUpper: ['P3 to inner horn at the upper dorsal point', ' mm'],
  lamellarLower: ['P3 to inner horn at the lower dorsal point', ' mm'],
  soleTip: ['sole depth below the tip', ' mm'],
  soleWing: ['sole depth below the wing', ' mm'],
  cup: ['air under the sole below the tip', ' mm'],
  heelSurplus: ['heel beyond the live sole plane', ' mm'],
  toeLength: ['hairline to toe on the ground', ' mm'],
  bearingLength: ['toe to heel on the ground', ' mm'],
  breakoverBack: ['breakover behind the dorsal contact', ' mm'],
  heelAngle: ['heel angle', ' deg'],
  coronetAngle: ['fall of the hairline', ' deg'],
  middleAngle: ['slope of P2', ' deg'],
  proximalAngle: ['slope of P1', ' deg'],
  cannonAngle: ['slope of the cannon bone', ' deg'],
};

/** The parameters of a foot as a person would say them. */
export function inWords(parameters: FootParameters): Record<string, string> {
  const rows = (Object.keys(named) as (keyof FootParameters)[]).flatMap((key) => {
    const value = parameters[key];
    const [words, unit] = named[key];
    return value === undefined ? [] : [[words, `${Number(value.toFixed(3))}${unit}`] as const];
  });
  return Object.fromEntries(rows);
}
