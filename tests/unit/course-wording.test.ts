import { describe, expect, it } from 'vitest';
import type { Trend } from '../../shared/course/course.ts';
import { mannKendall } from '../../shared/course/mann-kendall.ts';
import { theilSen } from '../../shared/course/theil-sen.ts';
import { findMeasure, measures } from '../../shared/measures/registry.ts';
import { sayGrowOut, sayTrend } from '../../shared/views/course-wording.ts';

/** What is said of values that stand 28 days apart. */
function said(values: readonly number[], name = 'palmar-angle', certainty: Trend['certainty'] = 'clear'): string {
  const times = values.map((_, index) => index);
  const line = theilSen(times, values);
  const order = mannKendall(times, values);
  const measure = findMeasure(name);
  if (!line || !order || !measure) throw new Error('no trend');
  const { low, high, level } = line;
  return sayTrend({ source: 'film', n: values.length, low, high, level, p: order.p, certainty, since: null }, measure);
}

describe('what a trend says', () => {
  it.each([
    ['palmar-angle', [13, 10, 7.4, 5], 'flatter by 2.4° to 3.0° each four weeks; four films are too few to be sure'],
    ['sole-depth.tip', [12, 10.5, 9.5], 'thinner by 1.0 to 1.5 mm each four weeks; three films are too few to be sure'],
    ['founder-distance.level', [4, 5, 6.1, 7, 8], 'the bone lower by 0.9 to 1.1 mm each four weeks'],
    ['grown-out', [9, 17, 24.5, 32], 'grows 7.5 to 8.0 mm each four weeks; four films are too few to be sure'],
    ['heel-surplus', [9, 9, 8.8], 'less by up to 0.2 mm each four weeks; three films are too few to be sure'],
    ['heel-surplus', [2, 2, 2], 'no clear trend; three films are too few to be sure'],
    ['palmar-angle', [5, 5.5, 4.9, 5.2, 5.6], 'no clear trend'],
    ['sole-depth.tip', [14, 14, 15, 15, 16], 'perhaps thicker by up to 1.0 mm each four weeks'],
    ['founder-distance.level', [4, 4, 4, 4, 4.001], 'no clear trend'],
  ] as const)('of %s in %j', (name, values, expected) => {
    expect(said(values, name)).toBe(expected);
  });

  it('is none where the films lie within their errors, and perhaps where the line alone goes further', () => {
    expect(said([4, 4.1, 4.2, 4.3, 4.4], 'founder-distance.level', 'none')).toBe('no clear trend');
    expect(said([13, 10, 7.4], 'palmar-angle', 'none')).toBe('no clear trend; three films are too few to be sure');
    expect(said([4, 5, 6.1, 7, 8], 'founder-distance.level', 'perhaps')).toBe(
      'perhaps the bone lower by 0.9 to 1.1 mm each four weeks',
    );
  });

  it('has one decimal, whatever the rate', () => {
    for (const step of [0.03, 0.1, 0.43, 0.97, 3])
      expect(said([1, 2, 3, 4, 5].map((place) => 20 - step * place))).not.toMatch(/\d\.\d\d/);
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

describe('when new wall reaches the ground', () => {
  it('is said by parts of a month: a day would be too sharp', () => {
    const dates = { date: '2026-12-19', early: '2026-12-04', late: '2027-01-21' };
    expect(sayGrowOut({ ...dates, by: 'films' }, { source: 'film', n: 4, level: 11 / 12 })).toBe(
      'New wall reaches the ground about mid-December 2026; early December 2026 at the earliest, late January 2027 at the latest; four films are too few to be sure.',
    );
    expect(sayGrowOut({ ...dates, early: null, late: null, by: 'tape' }, null)).toBe(
      'New wall reaches the ground about mid-December 2026; perhaps never at the slowest. This goes by the tape.',
    );
  });
});
