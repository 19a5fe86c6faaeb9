import { inversions } from './inversions.ts';
import { upperTail } from '../geometry/normal-tail.ts';
import { rankVariance } from './rank-variance.ts';
import { tiesIn } from './ties.ts';

/** Whether values rise or fall with time, by their order alone (Mann 1945, Kendall 1975). */
export interface MannKendall {
  readonly n: number;
  /** Pairs that rise less pairs that fall; a pair of one time or of one value counts for neither. */
  readonly s: number;
  readonly variance: number;
  /** S in standard deviations, with the continuity correction; 0 where S is. */
  readonly z: number;
  /** Two-sided: how often chance alone orders the values at least so well. */
  readonly p: number;
  readonly how: 'exact' | 'normal';
}

/** Up to so many values without ties the distribution of S is counted out. */
const COUNTED = 10;

/** Null for fewer than three values, which no trend is told of. `times` and `values` are of one length; any order. */
export function mannKendall(times: readonly number[], values: readonly number[]): MannKendall | null {
  const n = times.length;
  if (n < 3) return null;
  const s = risingLessFalling(times, values);
  const variance = rankVariance(times, values);
  const z = s === 0 || variance === 0 ? 0 : (Math.sign(s) * (Math.abs(s) - 1)) / Math.sqrt(variance);
  const exact = n <= COUNTED && tiesIn(times).length === 0 && tiesIn(values).length === 0;
  const p = exact ? exactP(n, s) : Math.min(1, 2 * upperTail(Math.abs(z)));
  return { n, s, variance, z, p, how: exact ? 'exact' : 'normal' };
}

/** Of all pairs those that are tied or fall are taken away, and those that fall once more. */
function risingLessFalling(times: readonly number[], values: readonly number[]): number {
  const points = times
    .map((time, index) => ({ time, value: values[index] as number }))
    .sort((a, b) => a.time - b.time || a.value - b.value);
  const falling = inversions(Float64Array.from(points, ({ value }) => value));
  const pairs = (counts: readonly number[]): number => counts.reduce((sum, k) => sum + (k * (k - 1)) / 2, 0);
  const tied = pairs(tiesIn(times)) + pairs(tiesIn(values)) - pairs(tiesInBoth(points));
  return pairs([points.length]) - tied - 2 * falling;
}

/** How many points are alike where more than one is; those that are alike stand side by side. */
function tiesInBoth(points: readonly { readonly time: number; readonly value: number }[]): number[] {
  const counts: number[] = [];
  points.forEach(({ time, value }, index) => {
    const before = points[index - 1];
    if (before?.time === time && before.value === value) counts[counts.length - 1] = (counts.at(-1) ?? 0) + 1;
    else counts.push(1);
  });
  return counts;
}

/** Of all n! orders the share whose |S| is at least as large. */
function exactP(n: number, s: number): number {
  if (s === 0) return 1;
  const counts = inversionCounts(n);
  const most = (n * (n - 1)) / 2;
  const asGood = counts.slice(0, (most - Math.abs(s)) / 2 + 1).reduce((sum, count) => sum + count, 0);
  const all = counts.reduce((sum, count) => sum + count, 0);
  return Math.min(1, (2 * asGood) / all);
}

/** How many orders of n things have 0, 1, 2 … pairs the wrong way round. */
export function inversionCounts(n: number): number[] {
  let counts = [1];
  for (let things = 2; things <= n; things++) {
    const longer = Array.from({ length: counts.length + things - 1 }, () => 0);
    counts.forEach((count, wrong) => {
      for (let more = 0; more < things; more++) longer[wrong + more] = (longer[wrong + more] ?? 0) + count;
    });
    counts = longer;
  }
  return counts;
}
