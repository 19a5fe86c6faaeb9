import { bones, type Bones } from './bones.ts';
import { capsule, type Capsule } from './capsule.ts';
import type { FootParameters } from './parameters.ts';
import type { Point } from './plane.ts';

export type LandmarkName = keyof Bones['landmarks'] | keyof Capsule['landmarks'];

/** A foot in its own frame: millimetres, x to the toe from below the tip of P3, y up from the ground. */
export interface Foot {
  bones: Bones;
  capsule: Capsule;
  landmarks: ReadonlyMap<LandmarkName, Point>;
}

export function foot(parameters: FootParameters): Foot {
  const b = bones(parameters);
  const c = capsule(parameters, b);
  const landmarks = new Map(Object.entries({ ...b.landmarks, ...c.landmarks }) as [LandmarkName, Point][]);
  return { bones: b, capsule: c, landmarks };
}
