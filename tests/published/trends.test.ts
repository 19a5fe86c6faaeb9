import { describe, expect, it } from 'vitest';
import { erf } from 'mathjs';
import { growOut } from '../../shared/course/grow-out.ts';
import { inversionCounts, mannKendall } from '../../shared/course/mann-kendall.ts';
import { upperTail, Z95 } from '../../shared/geometry/normal-tail.ts';
import { theilSen } from '../../shared/course/theil-sen.ts';
import { dayNumber } from '../../shared/notation/dates.ts';

/** Discharge of the Rhine at Maxau, one value a year: the example of the R package trend (data/maxau.rdata, column s), of the tests by Sen and by Mann and Kendall. */
const maxau = [
  37.383562, 31.282192, 26.419178, 28.827869, 32.882192, 37.572603, 27.342466, 29.857923, 35.493151, 28.90411,
  25.693151, 16.969945, 28.90137, 20.252055, 19.268493, 19.191257, 24.336986, 28.810959, 17.69589, 19.636612, 20.956164,
  29.10411, 27.345205, 27.603825, 20.989041, 26.969863, 27.443836, 32.79235, 27.561644, 30.728767, 33.145205, 25.778689,
  25.287671, 24.408219, 28.383562, 17.972678, 16.09589, 17.268493, 11.890411, 13.770492, 21.468966, 23.09863, 16.444134,
  15.773224, 13.873626,
];

describe('Maxau, 45 values equally far apart', () => {
  const times = maxau.map((_, index) => index + 1);
  it('has the slope and the interval of the package trend and of scipy 1.17.1 (theilslopes)', () => {
    const line = theilSen(times, maxau);
    expect(line?.slope).toBeCloseTo(-0.2876138906250001, 12);
    expect(line?.low).toBeCloseTo(-0.4196476666666667, 12);
    expect(line?.high).toBeCloseTo(-0.15190255555555549, 12);
    expect(line?.intercept).toBeCloseTo(32.393808484375, 10);
    expect(line?.level).toBe(0.95);
    // As the package gives it for the values with more decimals.
    expect(line?.slope).toBeCloseTo(-0.287613882, 7);
  });
  it('has the S, the variance, z and p of the package trend', () => {
    const order = mannKendall(times, maxau);
    expect(order).toMatchObject({ n: 45, s: -394, variance: 10450, how: 'normal' });
    expect(order?.z).toBeCloseTo(-3.844452, 6);
    expect(order?.p).toBeCloseTo(0.000120822, 8);
  });
  it('has the p of scipy 1.17.1 (kendalltau, asymptotic) without the continuity correction', () => {
    expect(2 * upperTail(394 / Math.sqrt(10450))).toBeCloseTo(0.0001160925297418402, 15);
  });
});

/** Each row computed by scipy 1.17.1: theilslopes at 0.95, kendalltau exact where there are no ties, else asymptotic. */
const small = [
  {
    name: 'seven visits, unequally far apart',
    times: [0, 42, 84, 140, 182, 238, 280],
    values: [14.0, 11.5, 10.2, 8.1, 7.4, 6.0, 5.1],
    line: { slope: -0.02857142857142856, intercept: 12.1, low: -0.0375, high: -0.021428571428571436 },
    exact: 0.0003968253968253968,
    asymptotic: 0.001610794963892616,
  },
  {
    name: 'three visits',
    times: [0, 28, 70],
    values: [3, 2.5, 1],
    line: { slope: -0.02857142857142857, intercept: 3.3, low: -0.03571428571428571, high: -0.017857142857142856 },
    exact: 1 / 3,
    asymptotic: 0.11718508719813801,
  },
  {
    name: 'four visits',
    times: [0, 28, 70, 90],
    values: [3, 2.5, 2.6, 1],
    line: { slope: -0.020039682539682538, intercept: 3.531944444444444, low: -0.08, high: 0.002380952380952383 },
    exact: 1 / 3,
    asymptotic: 0.17423138824802498,
  },
  {
    name: 'ten visits',
    times: [0, 30, 61, 91, 122, 150, 181, 212, 240, 270],
    values: [5.1, 6.4, 5.9, 7.2, 6.8, 8.0, 7.9, 9.4, 8.8, 9.9],
    line: {
      slope: 0.015833333333333335,
      intercept: 5.396666666666667,
      low: 0.013114754098360652,
      high: 0.02094594594594595,
    },
    exact: 0.0003576940035273369,
    asymptotic: 0.0009350263526396277,
  },
  {
    name: 'values that recur',
    times: [0, 28, 56, 84, 112, 140, 168, 196],
    values: [8, 7, 7, 6, 6, 6, 5, 5],
    line: { slope: -0.014285714285714285, intercept: 7.4, low: -0.017857142857142856, high: -0.008928571428571428 },
    exact: null,
    asymptotic: 0.0029054349935612525,
  },
  {
    name: 'values and days that recur',
    times: [0, 0, 28, 56, 56, 84, 112, 140],
    values: [8, 8, 7, 7.5, 6, 6, 5, 5.5],
    line: {
      slope: -0.023809523809523808,
      intercept: 7.833333333333333,
      low: -0.03571428571428571,
      high: -0.008928571428571428,
    },
    exact: null,
    asymptotic: 0.007398791689343153,
  },
  {
    name: 'twelve visits',
    times: [0, 30, 61, 91, 122, 150, 181, 212, 240, 270, 300, 331],
    values: [5.1, 6.4, 5.9, 7.2, 5.9, 8.0, 7.9, 9.4, 8.8, 9.9, 8.8, 10.2],
    line: {
      slope: 0.015169018085408582,
      intercept: 5.43952750686488,
      low: 0.008888888888888898,
      high: 0.019138755980861243,
    },
    exact: null,
    asymptotic: 0.0005713465887940056,
  },
];

describe.each(small)('$name, by scipy', ({ times, values, line, exact, asymptotic }) => {
  it('has the same line and interval', () => {
    const ours = theilSen(times, values);
    for (const part of ['slope', 'intercept', 'low', 'high'] as const) expect(ours?.[part]).toBeCloseTo(line[part], 12);
  });
  it('has the same p', () => {
    const ours = mannKendall(times, values);
    if (exact !== null) expect(ours).toMatchObject({ how: 'exact', p: expect.closeTo(exact, 14) as number });
    // scipy corrects for ties and not for continuity.
    expect(2 * upperTail(Math.abs(ours?.s ?? 0) / Math.sqrt(ours?.variance ?? 0))).toBeCloseTo(asymptotic, 13);
  });
});

// Of an even number of slopes that library takes one of the two in the middle, so only odd numbers can agree: 3 and 21 slopes.
it.each(small.slice(0, 2))('has the slope of the npm library ml-regression-theil-sen 3.0.0 for $name', (row) => {
  expect(theilSen(row.times, row.values)?.slope).toBeCloseTo(-0.02857142857142857, 15);
});

describe('Norris, the linear regression of lower difficulty of the NIST StRD', () => {
  // prettier-ignore
  const y = [0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2];
  // prettier-ignore
  const x = [0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5];
  const certified = { slope: 1.00211681802045, intercept: -0.262323073774029 };
  const mean = (of: readonly number[]): number => of.reduce((sum, one) => sum + one, 0) / of.length;

  it('is written down without a slip: least squares give the certified line', () => {
    const [mx, my] = [mean(x), mean(y)];
    const slope =
      x.reduce((sum, one, i) => sum + (one - mx) * ((y[i] ?? 0) - my), 0) /
      x.reduce((sum, one) => sum + (one - mx) ** 2, 0);
    expect(slope).toBeCloseTo(certified.slope, 12);
    expect(my - slope * mx).toBeCloseTo(certified.intercept, 10);
  });
  it('has the certified slope within its interval, which is that of scipy 1.17.1', () => {
    const line = theilSen(x, y);
    expect(line?.low).toBeLessThan(certified.slope);
    expect(line?.high).toBeGreaterThan(certified.slope);
    expect(line?.slope).toBeCloseTo(1.0021968365553604, 12);
    expect([line?.low, line?.high]).toEqual([
      expect.closeTo(1.0011153245594469, 12),
      expect.closeTo(1.0030534351145037, 12),
    ]);
  });
});

describe('the tail of the normal distribution', () => {
  it.each([
    [0.5, 0.3085375387259869],
    [1, 0.15865525393145707],
    [Z95, 0.025],
    [2.4, 0.008197535924596131],
    [2.6, 0.004661188023718747],
    [4, 3.167124183311986e-5],
    [8, 6.22096057427174e-16],
    [20, 2.7536241186061556e-89],
    [37, 5.7255712225239266e-300],
  ])('above %d is that of scipy 1.17.1 (norm.sf)', (z, tail) => {
    expect(upperTail(z) / tail).toBeCloseTo(1, 12);
    expect(upperTail(-z)).toBeCloseTo(1 - tail, 14);
  });
  it('is that of mathjs', () => {
    for (let z = -4; z <= 4; z += 0.125) expect(upperTail(z)).toBeCloseTo((1 - erf(z / Math.SQRT2)) / 2, 14);
  });
});

it('counts orders as the Mahonian numbers do (OEIS A008302)', () => {
  expect(inversionCounts(4)).toEqual([1, 3, 5, 6, 5, 3, 1]);
  expect(inversionCounts(5)).toEqual([1, 4, 9, 15, 20, 22, 20, 15, 9, 4, 1]);
});

it('lets a toe grow out in the time that its rate gives: 85 mm at 0.25 mm a day, 340 days', () => {
  const start = dayNumber('2026-01-01') ?? 0;
  const times = [start, start + 40, start + 80, start + 120];
  const line = theilSen(times, [0, 10, 20, 30]);
  if (!line) throw new Error('four points have a line');
  expect(growOut(line, 85, 'films')).toEqual({
    by: 'films',
    toeLength: 85,
    date: '2026-12-07',
    early: '2026-12-07',
    late: '2026-12-07',
  });
});
