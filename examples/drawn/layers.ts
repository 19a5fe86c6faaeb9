import type { Foot, LandmarkName } from './foot.ts';
import { bare, groundBelow } from './shoe.ts';
import { at, minus, type Point } from './plane.ts';

/** How dense a body is from its edge inwards (mm), as the beam meets it. */
export interface Layer {
  outline: Point[];
  /** Density where it is thickest; negative takes away. */
  density: number;
  /** Depth from the edge at which it is thickest; 0 is a slab. */
  round: number;
  /** Whether it sets in gradually, as within other tissue, rather than like a round body in air. */
  gradual?: true;
  /** A line above which it is absent and the distance below it over which it sets in, mm. */
  below?: { line: readonly [Point, Point]; over: number };
  /** Extra density of the shell, and its thickness. */
  shell?: number;
  shellDepth?: number;
  /** Strength of the spongy texture, and the slope along which it runs. */
  sponge?: number;
  grainAlong?: number;
}

export interface Line {
  line: Point[];
  density: number;
  /** Half width at which it has faded to about a third, mm. */
  half: number;
}

/** The bodies in the beam, in the foot frame. */
export function bodies(foot: Foot, slopes: { p2: number; p1: number; cannon: number; p3: number }): Layer[] {
  const { outlines, hollows } = foot.bones;
  const { outlines: horn, strip } = foot.capsule;
  const mark = (name: LandmarkName): Point => foot.landmarks.get(name) ?? at(0, 0);
  const hairline = { line: [mark('coronet.dorsal'), mark('coronet.heel')] as const, over: 16 };
  return [
    { outline: horn.skin, density: 0.21, round: 26 },
    { outline: horn.hoof, density: 0.09, round: 16, below: hairline },
    { outline: horn.filled, density: 0.1, round: 20, below: hairline, sponge: 0.04 },
    { outline: horn.toeHorn, density: 0.14, round: 2.2, sponge: 0.06, grainAlong: slopes.p3 },
    { outline: horn.soleHorn, density: 0.04, round: 3, sponge: 0.08 },
    {
      outline: outlines.cannon,
      density: 0.66,
      round: 15,
      shell: 0.16,
      shellDepth: 3.2,
      sponge: 0.09,
      grainAlong: slopes.cannon,
    },
    {
      outline: hollows.cannonMarrow,
      density: -0.24,
      round: 9,
      gradual: true,
      sponge: 0.1,
      grainAlong: slopes.cannon,
    },
    {
      outline: outlines.sesamoid,
      density: 0.36,
      round: 8,
      shell: 0.1,
      shellDepth: 1.6,
      sponge: 0.16,
      grainAlong: slopes.p1,
    },
    {
      outline: outlines.p1,
      density: 0.58,
      round: 13,
      shell: 0.2,
      shellDepth: 2.6,
      sponge: 0.1,
      grainAlong: slopes.p1,
    },
    {
      outline: hollows.p1Marrow,
      density: -0.16,
      round: 8,
      gradual: true,
      sponge: 0.2,
      grainAlong: slopes.p1,
    },
    {
      outline: outlines.p2,
      density: 0.6,
      round: 14,
      shell: 0.14,
      shellDepth: 1.8,
      sponge: 0.14,
      grainAlong: slopes.p2,
    },
    { outline: hollows.p2Core, density: -0.1, round: 8, gradual: true, sponge: 0.2, grainAlong: slopes.p2 },
    {
      outline: outlines.p3,
      density: 0.22,
      round: 7,
      shell: 0.06,
      shellDepth: 1.4,
      sponge: 0.2,
      grainAlong: slopes.p3,
    },
    {
      outline: outlines.p3Body,
      density: 0.36,
      round: 12,
      shell: 0.1,
      shellDepth: 1.6,
      sponge: 0.18,
      grainAlong: slopes.p3,
    },
    { outline: hollows.solarCanal, density: -0.12, round: 2.2, gradual: true },
    {
      outline: outlines.navicular,
      density: 0.36,
      round: 6,
      shell: 0.15,
      shellDepth: 1.4,
      sponge: 0.18,
      grainAlong: 80,
    },
    { outline: strip, density: 2.6, round: 0 },
  ];
}

export function lines(foot: Foot): Line[] {
  const p = foot.bones.plates;
  return [
    { line: p.p3Joint, density: 0.28, half: 1 },
    { line: p.p3Sole, density: 0.16, half: 1 },
    { line: p.p3Dorsal, density: 0.16, half: 1.1 },
    { line: p.p2Joint, density: 0.22, half: 1 },
    { line: p.p2Condyle, density: 0.16, half: 0.8 },
    { line: p.p1Joint, density: 0.2, half: 1.1 },
    { line: p.p1Condyle, density: 0.16, half: 0.8 },
    { line: p.cannonCondyle, density: 0.16, half: 1 },
    { line: p.navicularFlexor, density: 0.2, half: 0.9 },
    { line: foot.capsule.tendons, density: 0.035, half: 5 },
  ];
}

/** The wooden block the foot stands on; its top is the ground line. */
export function block(foot: Foot, shoe = bare): Point[] {
  const toe = foot.landmarks.get('toe.ground') ?? at(0, 0);
  const heel = foot.landmarks.get('heel.ground') ?? at(0, 0);
  const ground = groundBelow(foot, shoe);
  const [back, front] = [ground(heel.x - 34), ground(toe.x + 22)];
  return [back, front, minus(front, at(0, 60)), minus(back, at(0, 60))];
}
