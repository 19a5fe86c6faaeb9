import { distance, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import { findPatch, turnedAbout, type PatchFound, type VectorMap } from '../picture/seek/patch-search.ts';
import type { FilmPair } from './film-pair.ts';
import { inverse } from './point-map.ts';

/** What has to hold of a patch that was found before it is called distinct. From the bench, `docs/placing.md`. */
interface Demands {
  readonly correlation: number;
  /** How many times as much is left over where the next best place agrees. */
  readonly ahead: number;
  /** One standard deviation where it is told worst, mm. */
  readonly worst: number;
}

export interface SoughtPatch {
  readonly place: XY;
  readonly start: XY;
  readonly map: VectorMap;
  /** Millimetres, degrees, and a share. */
  readonly half: number;
  readonly reach: number;
  readonly turn: number;
  readonly size: number;
  readonly demands: Demands;
}

export interface PatchTold {
  readonly found: PatchFound | null;
  readonly distinct: boolean;
  readonly why: string;
  /** How far surroundings of another size put it elsewhere, pixels of the new film; 0 where one size was sought. */
  readonly apart: number;
}

/** Near surroundings are sought about where the wide ones were found, mm to either side. */
const NEAR_REACH = 0.9;
/** A patch that is found from there to here and not back from here to there was not found. */
const BACK_WITHIN = 0.5;

export function soughtPatch(pair: FilmPair, sought: SoughtPatch): PatchTold {
  const { before, now } = pair;
  const { place, map, half, size, demands } = sought;
  const px = 1 / before.mmPerPx;
  const found = lookedFor(pair, sought, half);
  if (!found) return notTold(found, t('What surrounds it is even, or lies beyond the picture.'));
  if (found.atRim) return notTold(found, t('It may lie further off than was looked.'));
  if (found.correlation < demands.correlation) return notTold(found, t('Nothing there looks enough like it.'));
  if (!isAhead(found, demands.ahead)) return notTold(found, t('Another place looks as much like it.'));
  if (found.worst * now.mmPerPx > demands.worst)
    return notTold(found, t('The picture tells its place in one direction only.'));
  const turned = (way: XY): XY => turnedAbout({ x: 0, y: 0 }, way, found.turn);
  const back = findPatch(now.picture, before.picture, {
    from: found.at,
    half: half * px * Math.hypot(map.right.x, map.right.y),
    map: inverse({ right: turned(map.right), down: turned(map.down) }),
    start: place,
    reach: 2 / now.mmPerPx,
    turn: 2,
    size,
  });
  if (!back || distance(back.at, place) > BACK_WITHIN * px)
    return notTold(found, t('Sought from the new film it is another place.'));
  return { found, distinct: true, why: t('Its surroundings were found again.'), apart: 0 };
}

/** The patch whose middle lies so far from its sides, mm. */
function lookedFor({ before, now }: FilmPair, sought: SoughtPatch, half: number): PatchFound | null {
  const { place, start, map, reach, turn, size } = sought;
  const px = 1 / before.mmPerPx;
  return findPatch(before.picture, now.picture, {
    from: place,
    half: half * px,
    map,
    start,
    reach: reach * px,
    turn,
    size,
  });
}

const notTold = (found: PatchFound | null, why: string): PatchTold => ({ found, distinct: false, why, apart: 0 });

const isAhead = ({ correlation, rival }: PatchFound, times: number): boolean => 1 - rival >= times * (1 - correlation);

/** Wide surroundings say which of several like places it is, near ones where it truly lies: if they do not agree, what is round it changed. */
export function soughtTwice(pair: FilmPair, sought: SoughtPatch, near: number, agreeWithin: number): PatchTold {
  const wide = soughtPatch(pair, sought);
  if (!wide.distinct || !wide.found) return wide;
  const told = soughtPatch(pair, {
    ...sought,
    start: wide.found.at,
    half: near,
    reach: NEAR_REACH,
    demands: { ...sought.demands, ahead: 1 },
  });
  return agreeing(pair, told, [wide.found], agreeWithin);
}

/**
 * A place on an edge looks much like those beside it, in surroundings of any one size; where the widest, those between and the nearest
 * put it at the same place, it is that one.
 */
export function soughtInSizes(
  pair: FilmPair,
  sought: SoughtPatch,
  between: number,
  near: number,
  agreeWithin: number,
): PatchTold {
  const wide = lookedFor(pair, sought, sought.half);
  const middle = lookedFor(pair, sought, between);
  if (!wide || !middle) return notTold(null, t('What surrounds it is even, or lies beyond the picture.'));
  if (!isAhead(wide, sought.demands.ahead)) return notTold(wide, t('Another place looks as much like it.'));
  // That nothing beside looks as much like it is the part of the wider ones.
  const demands = { ...sought.demands, ahead: 0 };
  const told = soughtPatch(pair, { ...sought, start: wide.at, half: near, reach: 2, demands });
  return agreeing(pair, told, [wide, middle], agreeWithin);
}

function agreeing(pair: FilmPair, told: PatchTold, others: readonly PatchFound[], within: number): PatchTold {
  if (!told.distinct || !told.found) return told;
  const { at } = told.found;
  const apart = Math.max(...others.map((one) => distance(one.at, at)));
  if (apart * pair.now.mmPerPx > within)
    return { ...told, distinct: false, why: t('What is round it has changed.'), apart };
  return { ...told, apart };
}
