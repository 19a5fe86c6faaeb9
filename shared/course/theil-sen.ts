import { Z95 } from '../geometry/normal-tail.ts';
import { pairSlopes } from './pair-slopes.ts';
import { rankVariance } from './rank-variance.ts';
import { tiesIn } from './ties.ts';

/** A straight line by the middle of all slopes between two points (Theil 1950, Sen 1968): one wild value cannot turn it. */
export interface TheilSen {
  readonly n: number;
  /** Values by time. */
  readonly slope: number;
  /** The value at time 0: the line goes through the median time and the median value. */
  readonly intercept: number;
  readonly middle: { readonly time: number; readonly value: number };
  /** Interval of the slope by Sen's ranks. */
  readonly low: number;
  readonly high: number;
  /**
   * How often such an interval holds the true slope: 0.95, or less where so few points cannot carry it. Then `low` and `high` are
   * the least and the largest slope, and this is their exact level: 2/3 for three points, 11/12 for four.
   */
  readonly level: number;
}

export const LEVEL = 0.95;

/** Null where there are fewer than two times. `times` and `values` are of one length; any order. */
export function theilSen(times: readonly number[], values: readonly number[]): TheilSen | null {
  const slopes = pairSlopes(times, values);
  if (slopes.length === 0) return null;
  const upperMiddle = slopes.length >> 1;
  const slope =
    slopes.length % 2 === 1 ? slopes.at(upperMiddle) : (slopes.at(upperMiddle - 1) + slopes.at(upperMiddle)) / 2;
  const middle = { time: median(times), value: median(values) };
  const half = Z95 * Math.sqrt(rankVariance(times, values));
  const last = slopes.length - 1;
  const lower = Math.max(evenRound((slopes.length - half) / 2) - 1, 0);
  const upper = Math.min(evenRound((slopes.length + half) / 2), last);
  return {
    n: times.length,
    slope,
    intercept: middle.value - slope * middle.time,
    middle,
    low: slopes.at(lower),
    high: slopes.at(upper),
    level: Math.min(LEVEL, levelOfExtremes(times)),
  };
}

/** No interval between two of the slopes holds more often than that of all: the true slope lies beyond all of them only where every value lies in order: 2 of n! orders, more where times are tied. */
function levelOfExtremes(times: readonly number[]): number {
  let orders = 1;
  let placed = times.length;
  // One of so many places after the other: as a quotient of factorials it would be none for hundreds of films.
  for (const count of tiesIn(times)) for (let tied = 1; tied <= count; tied++) orders = (orders * placed--) / tied;
  while (placed > 1) orders *= placed--;
  return 1 - 2 / orders;
}

export function median(numbers: readonly number[]): number {
  const sorted = Float64Array.from(numbers).sort();
  const half = sorted.length >> 1;
  const upper = sorted[half] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2;
}

/** To the nearest whole number, halves to the even one: so the published intervals are made. */
function evenRound(value: number): number {
  const floor = Math.floor(value);
  const rest = value - floor;
  if (rest !== 0.5) return Math.round(value);
  return floor % 2 === 0 ? floor : floor + 1;
}
