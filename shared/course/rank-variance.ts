import { tiesIn } from './ties.ts';

/**
 * Variance of Kendall's S where no order is likelier than another, with ties in either row (Kendall, Rank Correlation Methods,
 * 4th edition, chapter 5; the formula from memory, its values checked against published ones and another program's). At least 0.
 */
export function rankVariance(times: readonly number[], values: readonly number[]): number {
  const n = times.length;
  if (n < 2) return 0;
  const t = tiesIn(times);
  const u = tiesIn(values);
  const spread = (of: readonly number[]): number => total(of, (k) => k * (k - 1) * (2 * k + 5));
  const pairs = (of: readonly number[]): number => total(of, (k) => k * (k - 1));
  const triples = (of: readonly number[]): number => total(of, (k) => k * (k - 1) * (k - 2));
  const untied = (n * (n - 1) * (2 * n + 5) - spread(t) - spread(u)) / 18;
  const tiedPairs = (pairs(t) * pairs(u)) / (2 * n * (n - 1));
  const tiedTriples = n > 2 ? (triples(t) * triples(u)) / (9 * n * (n - 1) * (n - 2)) : 0;
  return Math.max(0, untied + tiedPairs + tiedTriples);
}

const total = (counts: readonly number[], of: (count: number) => number): number =>
  counts.reduce((sum, count) => sum + of(count), 0);
