import { SURELY } from './change.ts';

/**
 * Whether a value that ought to stand still has risen over a series of films: one rule over all of them, so that a slow
 * rise is seen as well as a sudden one. Pure arithmetic; what is measured, and what follows from it, stands elsewhere.
 */

/** What one day's films give. */
export interface FilmLevel {
  /** `dayNumber`, ascending in a series, each day once. */
  readonly day: number;
  readonly value: number;
  /** Of the value: placing, and from film to film. */
  readonly variance: number;
  /** Its covariance with an earlier day of the series, whose placings were followed; absent where it shares nothing. */
  readonly sharedWith?: (earlier: FilmLevel) => number;
}

/** By how much, with one standard deviation, in the unit of the values. */
export interface Rise {
  readonly by: number;
  readonly sd: number;
  /** `newest`: the last value against the mean of all before it. `trend`: the weighted line through all, over its span. */
  readonly seenAs: 'newest' | 'trend';
}

export type Certainty = 'none' | 'perhaps' | 'clear';

/** How many standard deviations a rise has to pass: for an alarm, and for a word of caution. */
export const CLEARLY = 2.7;
export const PERHAPS = SURELY;

/**
 * A weighted straight line, filled value by value: its rise from the first day to the last. By the method of least squares
 * with weights of one over the variance (JCGM 100:2008, H.3, for the unweighted case). What days share changes the error of the
 * rise alone: it is the sum over all pairs of days of their covariance, each day by its part in the slope.
 */
export class TrendLine {
  private weight = 0;
  private byDay = 0;
  private byDaySquared = 0;
  private byValue = 0;
  private byBoth = 0;
  private first = NaN;
  private last = NaN;
  private readonly levels: FilmLevel[] = [];
  /** Over all pairs of days: their covariance by both weights, by the sum of their days, and by the product of them. */
  private shared = 0;
  private sharedByDay = 0;
  private sharedByDays = 0;

  add(level: FilmLevel): void {
    const { day, value, variance, sharedWith } = level;
    if (Number.isNaN(this.first)) this.first = day;
    this.last = day;
    // Counted from the first day: squares of days since 1970 would swallow the differences.
    const since = day - this.first;
    const weight = 1 / variance;
    this.weight += weight;
    this.byDay += weight * since;
    this.byDaySquared += weight * since * since;
    this.byValue += weight * value;
    this.byBoth += weight * since * value;
    if (sharedWith)
      for (const earlier of this.levels) {
        const covariance = (sharedWith(earlier) * weight) / earlier.variance;
        const before = earlier.day - this.first;
        this.shared += covariance;
        this.sharedByDay += covariance * (since + before);
        this.sharedByDays += covariance * since * before;
      }
    this.levels.push(level);
  }

  /** Null for fewer than two days. */
  rise(): Rise | null {
    const spread = this.byDaySquared - (this.byDay * this.byDay) / this.weight;
    if (!(spread > 0)) return null;
    const slope = (this.byBoth - (this.byDay * this.byValue) / this.weight) / spread;
    const span = this.last - this.first;
    const middle = this.byDay / this.weight;
    const shared = this.sharedByDays - middle * this.sharedByDay + middle * middle * this.shared;
    const sd = span * Math.sqrt(Math.max(0, 1 / spread + (2 * shared) / (spread * spread)));
    return { by: slope * span, sd, seenAs: 'trend' };
  }
}

/** The last of a series against the plain mean of all before it. */
export class Mean {
  private count = 0;
  private sum = 0;
  private variance = 0;
  private readonly levels: FilmLevel[] = [];

  add(level: FilmLevel): void {
    this.count += 1;
    this.sum += level.value;
    this.variance += level.variance + 2 * this.sharedWith(level);
    this.levels.push(level);
  }

  get value(): number {
    return this.sum / this.count;
  }

  rise(level: FilmLevel): Rise | null {
    if (this.count === 0) return null;
    const { value, variance } = level;
    const shared = this.sharedWith(level) / this.count;
    return {
      by: value - this.value,
      sd: Math.sqrt(Math.max(0, variance + this.variance / this.count ** 2 - 2 * shared)),
      seenAs: 'newest',
    };
  }

  /** The sum of its covariances with all days so far. */
  private sharedWith({ sharedWith }: FilmLevel): number {
    return sharedWith ? this.levels.reduce((sum, earlier) => sum + sharedWith(earlier), 0) : 0;
  }
}

/** How sure it is that a rise is one: it has to pass the floor, and so many of its standard deviations. */
export function certainty({ by, sd }: Pick<Rise, 'by' | 'sd'>, floor: number): Certainty {
  if (!(by > floor)) return 'none';
  if (by > CLEARLY * sd) return 'clear';
  return by > PERHAPS * sd ? 'perhaps' : 'none';
}

/** The surer of two rises. */
export function surer(one: Rise | null, other: Rise | null): Rise | null {
  if (!one || !other) return one ?? other;
  return other.by / other.sd > one.by / one.sd ? other : one;
}
