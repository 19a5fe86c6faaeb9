import { minus, plus, type XY } from '../geometry/vector.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import { byGround, groundMap, type FilmPair } from './film-pair.ts';
import { proposal } from './pedal-bone.ts';
import type { Proposal } from './proposal.ts';
import { soughtPatch } from './sought-patch.ts';

/** Points of the capsule, which the picture alone tells: a bone that carried them along could not be seen to sink. */
export interface CapsulePoints {
  readonly proposals: readonly Proposal[];
  /** How far what was found lies from where the ground alone put it, px of the new film. */
  readonly shift: XY;
}

const FLOOR = 0.15;

export function capsulePoints(pair: FilmPair, rows: readonly LateralLandmark[]): CapsulePoints {
  const { before, now } = pair;
  const map = groundMap(pair);
  const size = before.mmPerPx / now.mmPerPx;
  const shifts: XY[] = [];
  const proposals = rows.flatMap(({ word, proposed }) => {
    const place = before.at(word);
    if (proposed.by !== 'patch' || proposed.on !== 'capsule' || !place) return [];
    const start = byGround(pair, place);
    const { found, distinct, why } = soughtPatch(pair, {
      place,
      start,
      map,
      half: 5,
      reach: 9,
      turn: 6,
      size: 0.02,
      demands: { correlation: 0.85, ahead: 0.1, worst: 0.4 },
    });
    const shared = before.spreadOf(word) * size;
    // Not told by the picture: the bone may not stand in for it, so that there is no proposal at all.
    if (!found || !distinct) return [];
    shifts.push(minus(found.at, start));
    return [proposal(word, found.at, Math.hypot(found.worst, FLOOR / now.mmPerPx), shared, true, 'patch', why)];
  });
  return { proposals, shift: middleOf(shifts) };
}

/** The median of each coordinate; none where there are too few to have a middle. */
function middleOf(shifts: readonly XY[]): XY {
  if (shifts.length < 3) return { x: 0, y: 0 };
  const middle = (of: (shift: XY) => number): number =>
    shifts.map(of).toSorted((a, b) => a - b)[Math.floor(shifts.length / 2)] ?? 0;
  return plus({ x: middle(({ x }) => x), y: middle(({ y }) => y) }, { x: 0, y: 0 });
}
