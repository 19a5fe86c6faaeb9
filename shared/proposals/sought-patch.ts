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
}

/** A patch that is found from there to here and not back from here to there was not found. */
const BACK_WITHIN = 0.5;

export function soughtPatch({ before, now }: FilmPair, sought: SoughtPatch): PatchTold {
  const { place, start, map, half, reach, turn, size, demands } = sought;
  const px = 1 / before.mmPerPx;
  const found = findPatch(before.picture, now.picture, {
    from: place,
    half: half * px,
    map,
    start,
    reach: reach * px,
    turn,
    size,
  });
  const not = (why: string): PatchTold => ({ found, distinct: false, why });
  if (!found) return not(t('What surrounds it is even, or lies beyond the picture.'));
  if (found.atRim) return not(t('It may lie further off than was looked.'));
  if (found.correlation < demands.correlation) return not(t('Nothing there looks enough like it.'));
  if (1 - found.rival < demands.ahead * (1 - found.correlation)) return not(t('Another place looks as much like it.'));
  if (found.worst * now.mmPerPx > demands.worst) return not(t('The picture tells its place in one direction only.'));
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
    return not(t('Sought from the new film it is another place.'));
  return { found, distinct: true, why: t('Its surroundings were found again.') };
}

/** Wide surroundings say which of several like places it is, near ones where it truly lies: if they do not agree, what is round it changed. */
export function soughtTwice(pair: FilmPair, sought: SoughtPatch, near: number, agreeWithin: number): PatchTold {
  const wide = soughtPatch(pair, sought);
  if (!wide.distinct || !wide.found) return wide;
  const told = soughtPatch(pair, {
    ...sought,
    start: wide.found.at,
    half: near,
    reach: 2 * agreeWithin,
    demands: { ...sought.demands, ahead: 1 },
  });
  if (!told.distinct || !told.found) return told;
  if (distance(told.found.at, wide.found.at) * pair.now.mmPerPx > agreeWithin)
    return { ...told, distinct: false, why: t('What is round it has changed.') };
  return told;
}
