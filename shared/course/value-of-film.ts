import type { Value, Values } from '../measures/take.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';
import { changeBetween, type Change } from './change.ts';
import { repeatSpreadIn } from './repeat-reads.ts';

/** What a film stands for across visits: of several readers the first whose landmarks make a frame. */
export function valuesOfFilm({ readings }: StudiedFilm): Values | undefined {
  return readings.find(({ taking }) => taking.frame)?.taking.values;
}

/** The standard deviation of one reading: observed where a case has repeat readings enough, else from the placings. */
export function spreadOf({ measure, sd }: Value, study: Study): number {
  return repeatSpreadIn(study, measure.name)?.sd ?? sd;
}

/** How a measure changed from one film of a foot to a later one. */
export function changeOfValue(was: Value, now: Value, study: Study): Change {
  return changeBetween({ value: was.value, sd: spreadOf(was, study) }, { value: now.value, sd: spreadOf(now, study) });
}
