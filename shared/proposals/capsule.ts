import { minus, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import { groundCorner } from './corner.ts';
import { byGround, groundMap, type FilmPair } from './film-pair.ts';
import { proposal } from './pedal-bone.ts';
import type { Proposal } from './proposal.ts';
import { soughtInSizes, soughtTwice, type PatchTold, type SoughtPatch } from './sought-patch.ts';

/** Points of the capsule, which the picture alone tells: a bone that carried them along could not be seen to sink. */
export interface CapsulePoints {
  readonly proposals: readonly Proposal[];
  /** How far what was found lies from where the ground alone put it, px of the new film. */
  readonly shift: XY;
}

/** From the middle of a patch to its sides, mm, and how near to one another their places have to be (all from the bench). */
const threeSizes = { wide: 12, between: 9, near: 6, agree: 0.7, ahead: 1.3 };
/** What a trim or a dressing changes lies less far about the point. */
const twoSizes = { wide: 7, near: 4.5, agree: 0.8, ahead: 2.2 };
const demands = { correlation: 0.85, worst: 0.4 };
/** What one match adds at the least, mm. */
const FLOOR = 0.1;
/** And one corner: a wall is not quite straight down to the ground. */
const CORNER = 0.2;
/**
 * And, in deviations of a hand: along the ground a corner does not err as the old contact did. The wall is taken where a hand placed
 * both its ends (contact and upper point) and drawn on down to where the ground was placed. At a heel wall of 43° that makes 1.07 of
 * one placing's deviation, which is √(1 + 0.38²); at a steeper one less. How far the corner comes to lie from where the old contact
 * would have been is still more, along the ground by about one deviation.
 */
const MEAN_OF_WALL = 0.38;

export function capsulePoints(pair: FilmPair, rows: readonly LateralLandmark[]): CapsulePoints {
  const { before, now } = pair;
  const map = groundMap(pair);
  const size = before.mmPerPx / now.mmPerPx;
  const shifts: XY[] = [];
  const proposals = rows.flatMap(({ word, proposed, underGrowth }) => {
    const place = before.at(word);
    if (proposed.by !== 'patch' || proposed.on !== 'capsule' || !place) return [];
    const start = byGround(pair, place);
    const shared = before.spreadOf(word) * size;
    const upper = proposed.corner && before.at(proposed.corner);
    const corner = upper && groundCorner(pair, upper, place);
    // It goes where the heel was trimmed to, which says nothing of where the rest of the capsule lies.
    if (corner) {
      const why = t('The wall and the ground were found again, and this is where they meet.');
      const added = Math.hypot(corner.worst, CORNER / now.mmPerPx, MEAN_OF_WALL * before.usual * size);
      return [proposal(word, corner.at, added, shared, true, 'edge', why)];
    }
    const { found, distinct, why, apart } = told(pair, { place, start, map }, underGrowth === 'stays');
    // Not told by the picture: the bone may not stand in for it, so that there is no proposal at all.
    if (!found || !distinct) return [];
    shifts.push(minus(found.at, start));
    const added = Math.hypot(found.worst, apart, FLOOR / now.mmPerPx);
    return [proposal(word, found.at, added, shared, true, 'patch', why)];
  });
  return { proposals, shift: middleOf(shifts) };
}

/** On the ground, what a trim has changed is all about the point but for its near surroundings. */
function told(pair: FilmPair, point: Pick<SoughtPatch, 'place' | 'start' | 'map'>, onGround: boolean): PatchTold {
  const sought = { ...point, reach: 9, turn: 6, size: 0.02 };
  if (!onGround) {
    const { wide, between, near, agree, ahead } = threeSizes;
    const found = soughtInSizes(pair, { ...sought, half: wide, demands: { ...demands, ahead } }, between, near, agree);
    if (found.distinct) return found;
  }
  const { wide, near, agree, ahead } = twoSizes;
  return soughtTwice(pair, { ...sought, half: wide, demands: { ...demands, ahead } }, near, agree);
}

/** The median of each coordinate; none where there are too few to have a middle. */
function middleOf(shifts: readonly XY[]): XY {
  if (shifts.length < 3) return { x: 0, y: 0 };
  const middle = (of: (shift: XY) => number): number =>
    shifts.map(of).toSorted((a, b) => a - b)[Math.floor(shifts.length / 2)] ?? 0;
  return { x: middle(({ x }) => x), y: middle(({ y }) => y) };
}
