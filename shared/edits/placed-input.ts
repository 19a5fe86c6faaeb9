import type { FootInput, PlacedLandmark } from '../geometry/foot-input.ts';
import type { XY } from '../geometry/vector.ts';
import { findLandmark } from '../notation/landmarks.ts';
import { soundInput } from '../measures/sound-scale.ts';
import { tenth, writtenSpread } from './tenth.ts';
import type { Placement } from './placing-schema.ts';

/** What a foot is measured from once placements are made on it, each place as it will be written: to a tenth of a pixel. */
export function placedInput(input: FootInput, placements: readonly Placement[]): FootInput {
  return placements.reduce(withPlacement, input);
}

function withPlacement(input: FootInput, placement: Placement): FootInput {
  switch (placement.kind) {
    case 'landmark':
      return { ...input, landmarks: withLandmark(input.landmarks, placement) };
    case 'ground':
      return { ...input, ground: twoPlaces(placement.ends) };
    case 'bearing':
      return { ...input, bearing: twoPlaces(placement.ends) };
    case 'marker': {
      const ends = twoPlaces(placement.ends);
      const mm = placement.mm ?? (input.scale?.kind === 'marker' ? input.scale.mm : null);
      // No length is assumed: a marker without one is not written either.
      if (ends && mm === null) return input;
      return { ...input, scale: soundInput(ends && mm !== null ? { kind: 'marker', mm, ends } : null) };
    }
  }
}

/**
 * A landmark that is moved keeps its own spread, where none is given and it was not followed; a name that none has changes
 * nothing.
 */
function withLandmark(
  landmarks: readonly PlacedLandmark[],
  { name: word, at, spread, followed }: Extract<Placement, { kind: 'landmark' }>,
): readonly PlacedLandmark[] {
  const name = findLandmark(word)?.word;
  if (name === undefined) return landmarks;
  if (!at) return landmarks.filter((one) => one.name !== name);
  const before = landmarks.find((one) => one.name === name);
  const kept = before && (followed || !before.followed) ? before.spread : null;
  const own = spread === undefined ? kept : spread === null ? null : writtenSpread(spread);
  const placed: PlacedLandmark = { name, ...tenth(at), spread: own, ...(followed && { followed }) };
  return before ? landmarks.map((one) => (one === before ? placed : one)) : [...landmarks, placed];
}

/** Two ends at one place are no line, as in a text. */
function twoPlaces(ends: readonly [XY, XY] | null): readonly [XY, XY] | null {
  if (!ends) return null;
  const [from, to] = [tenth(ends[0]), tenth(ends[1])];
  return from.x === to.x && from.y === to.y ? null : [from, to];
}
