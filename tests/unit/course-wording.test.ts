import { describe, expect, it } from 'vitest';
import { mannKendall } from '../../shared/course/mann-kendall.ts';
import { theilSen } from '../../shared/course/theil-sen.ts';
import { findMeasure, measures } from '../../shared/measures/registry.ts';
import { sayTrend } from '../../shared/views/course-wording.ts';

/** What is said of values that stand 28 days apart. */
function said(values: readonly number[], name = 'palmar-angle'): string {
  const times = values.map((_, index) => index);
  const line = theilSen(times, values);
  const order = mannKendall(times, values);
  const measure = findMeasure(name);
  if (!line || !order || !measure) throw new Error('no trend');
  return sayTrend({ n: values.length, low: line.low, high: line.high, level: line.level, p: order.p }, measure);
}

describe('what a trend says', () => {
  it.each([
    ['palmar-angle', [13, 10, 7.4, 5], 'flatter by 2.4° to 3.0° each four weeks; four films are too few to be sure'],
    ['sole-depth.tip', [12, 10.5, 9.5], 'thinner by 1.0 to 1.5 mm each four weeks; three films are too few to be sure'],
    ['founder-distance.level', [4, 5, 6.1, 7, 8], 'the bone lower by 0.9 to 1.1 mm each four weeks'],
    [
      'grown-out',
      [9, 17, 24.5, 32],
      'further down by 7.5 to 8.0 mm each four weeks; four films are too few to be sure',
    ],
    ['heel-surplus', [9, 9, 8.8], 'less by up to 0.20 mm each four weeks; three films are too few to be sure'],
    ['heel-surplus', [2, 2, 2], 'no clear trend; three films are too few to be sure'],
    ['palmar-angle', [5, 5.5, 4.9, 5.2, 5.6], 'no clear trend'],
    ['sole-depth.tip', [14, 14, 15, 15, 16], 'perhaps thicker by up to 1.0 mm each four weeks'],
    ['founder-distance.level', [4, 4, 4, 4, 4.001], 'no clear trend'],
  ] as const)('of %s in %j', (name, values, expected) => {
    expect(said(values, name)).toBe(expected);
  });

  it('speaks of no odds and of no certainty, whatever the measure and the films', () => {
    for (const { name } of measures)
      for (const values of [
        [3, 1, 2],
        [1, 2, 3, 4],
        [1, 2, 3, 4, 5],
        [5, 4.4, 3.9, 3.1, 2, 1],
        [1, 1, 1, 1],
      ])
        expect(said(values, name)).not.toMatch(/times|chance|doubt|certain|no sinking|NaN|undefined/);
  });

  // Of four films in one order 2 of 24 orders are as good: p is 0.083 at best (Mann 1945, Kendall 1975).
  it('is never sure of fewer than five films, however clear their order', () => {
    expect(mannKendall([0, 1, 2, 3], [1, 5, 9, 13])?.p).toBeCloseTo(2 / 24, 12);
    expect(said([1, 5, 9, 13])).toContain('four films are too few to be sure');
    expect(said([1, 5, 9, 13, 17])).not.toContain('too few');
  });
});
