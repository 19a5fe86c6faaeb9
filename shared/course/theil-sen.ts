import { Z95 } from './normal-tail.ts';
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
  const slope = medianOfSorted(slopes);
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
    low: slopes[lower] as number,
    high: slopes[upper] as number,
    level: Math.min(LEVEL, levelOfExtremes(times)),
  };
}

/** No interval between two of the slopes holds more often than that of all: the true slope lies beyond all of them only where every value lies in order: 2 of n! orders, more where times are tied. */
function levelOfExtremes(times: readonly number[]): number {
  const orders = tiesIn(times).reduce((left, count) => left / factorial(count), factorial(times.length));
  return 1 - 2 / orders;
}

/** Slopes of all pairs of different times, the least first. */
function pairSlopes(times: readonly number[], values: readonly number[]): Float64Array {
  const n = times.length;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let count = 0;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const run = (times[j] as number) - (times[i] as number);
      if (run !== 0) slopes[count++] = ((values[j] as number) - (values[i] as number)) / run;
    }
  return slopes.subarray(0, count).sort();
}

export function median(numbers: readonly number[]): number {
  return medianOfSorted(Float64Array.from(numbers).sort());
}

function medianOfSorted(sorted: Float64Array): number {
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

function factorial(n: number): number {
  let product = 1;
  for (let factor = 2; factor <= n; factor++) product *= factor;
  return product;
}
