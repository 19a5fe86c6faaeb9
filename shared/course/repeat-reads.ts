import type { MeasureName } from '../measures/names.ts';
import { isFollowing } from './following.ts';
import type { Study } from '../trim/study.ts';

/**
 * How far readings of the same film lie apart, over all films of a case: what placing really does, in place of what is assumed.
 */
export interface RepeatSpread {
  readonly sd: number;
  /** Repeat readings beyond the first of each film. */
  readonly degreesOfFreedom: number;
}

/**
 * From so many on the observed spread stands in place of the assumed one. With 10 the 95 % interval of a standard deviation runs from
 * 0.70 to 1.75 of what was found (chi-square); with 1 from 0.45 to 31.9, so that two readings alone say nothing. A judgement of ours.
 */
export const ENOUGH_REPEATS = 10;

/**
 * Pooled within-film standard deviation of a measure, in its unit, over films and photos alike. Null where there are too few repeat
 * readings, or where all are the same to the last figure: a copied line is no second reading. Nor is one that was followed from
 * another film.
 */
export function repeatSpread({ films }: Pick<Study, 'films'>, measure: MeasureName): RepeatSpread | null {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const { readings } of films) {
    if (readings.length < 2) continue;
    const values = readings.flatMap(({ reading, taking }) =>
      isFollowing(reading) ? [] : (taking.values.get(measure)?.value ?? []),
    );
    if (values.length < 2) continue;
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    squares += values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    degreesOfFreedom += values.length - 1;
  }
  if (degreesOfFreedom < ENOUGH_REPEATS || squares === 0) return null;
  return { sd: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
