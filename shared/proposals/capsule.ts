import { minus, type XY } from '../geometry/vector.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import { byGround, groundMap, type FilmPair } from './film-pair.ts';
import { proposal } from './pedal-bone.ts';
import type { Proposal } from './proposal.ts';
import { soughtTwice } from './sought-patch.ts';

/** Points of the capsule, which the picture alone tells: a bone that carried them along could not be seen to sink. */
export interface CapsulePoints {
  readonly proposals: readonly Proposal[];
  /** How far what was found lies from where the ground alone put it, px of the new film. */
  readonly shift: XY;
}

/** From the middle of a patch to its sides: of what tells one place from another, and of what tells the place itself, mm. */
const [WIDE, NEAR] = [5, 2.8];
/** Both have to say the same place within so many mm (from the bench). */
const AGREE = 0.45;
const demands = { correlation: 0.85, ahead: 2.2, worst: 0.4 };
/** What one match adds at the least, mm. */
const FLOOR = 0.1;

export function capsulePoints(pair: FilmPair, rows: readonly LateralLandmark[]): CapsulePoints {
  const { before, now } = pair;
  const map = groundMap(pair);
  const size = before.mmPerPx / now.mmPerPx;
  const shifts: XY[] = [];
  const proposals = rows.flatMap(({ word, proposed }) => {
    const place = before.at(word);
    if (proposed.by !== 'patch' || proposed.on !== 'capsule' || !place) return [];
    const start = byGround(pair, place);
    const sought = { place, start, map, half: WIDE, reach: 9, turn: 6, size: 0.02, demands };
    const { found, distinct, why } = soughtTwice(pair, sought, NEAR, AGREE);
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
  return { x: middle(({ x }) => x), y: middle(({ y }) => y) };
}
