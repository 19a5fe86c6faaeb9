import type { FootInput } from '../../geometry/foot-input.ts';
import { footFrame, type Frame } from '../../geometry/frame.ts';
import { placedLandmark } from '../../measures/film-input.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import type { Placing } from '../../record/schema.ts';

/** The frame that a film would have with other placings: some left out, or two with their names exchanged. */
export function frameWith(placings: readonly Placing[], input: FootInput): Frame | null {
  const landmarks = placings.map(placedLandmark);
  return footFrame(() => ({ ...input, landmarks })).frame;
}

export function exchanged(placings: readonly Placing[], one: LandmarkName, other: LandmarkName): Placing[] {
  const name = (now: LandmarkName): LandmarkName => (now === one ? other : now === other ? one : now);
  return placings.map((placing) => ({ ...placing, name: name(placing.name) }));
}
