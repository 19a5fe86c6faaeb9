import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mannKendall } from '../../shared/course/mann-kendall.ts';
import { theilSen, type TheilSen } from '../../shared/course/theil-sen.ts';

/** Whole days and tenths of a degree, so that ties come about. */
const point = fc.record({
  time: fc.integer({ min: 0, max: 900 }),
  value: fc.integer({ min: -120, max: 120 }).map((v) => v / 8),
});
const points = fc.array(point, { minLength: 3, maxLength: 14 });
const untied = fc
  .uniqueArray(fc.integer({ min: 0, max: 900 }), { minLength: 3, maxLength: 7 })
  .chain((times) =>
    fc
      .uniqueArray(fc.integer({ min: -400, max: 400 }), { minLength: times.length, maxLength: times.length })
      .map((values) => ({ times, values })),
  );

interface Drawn {
  readonly time: number;
  readonly value: number;
}

const lineOf = (drawn: readonly Drawn[]): TheilSen | null =>
  theilSen(
    drawn.map(({ time }) => time),
    drawn.map(({ value }) => value),
  );
const orderOf = (drawn: readonly Drawn[]) =>
  mannKendall(
    drawn.map(({ time }) => time),
    drawn.map(({ value }) => value),
  );

/** In another way: a slope is the k-th where so many others lie below it, counted and not sorted. */
function slopeOfRank(drawn: readonly Drawn[], rank: number): number | null {
  const slopes = drawn
    .flatMap((a, i) =>
      drawn.slice(i + 1).map((b) => (a.time === b.time ? null : (a.value - b.value) / (a.time - b.time))),
    )
    .filter((one) => one !== null);
  for (const slope of slopes) {
    const below = slopes.filter((other) => other < slope).length;
    const alike = slopes.filter((other) => other === slope).length;
    if (below <= rank && rank < below + alike) return slope;
  }
  return null;
}

const near = (a: number, b: number, scale = 1): boolean =>
  Math.abs(a - b) <= 1e-9 * (scale + Math.abs(a) + Math.abs(b));

describe('the line of Theil and Sen', () => {
  it('has as many slopes above as below, by a count of our own', () => {
    fc.assert(
      fc.property(points, (drawn) => {
        const line = lineOf(drawn);
        const runs = drawn.flatMap((a, i) => drawn.slice(i + 1).filter((b) => b.time !== a.time)).length;
        if (runs === 0) return expect(line).toBeNull();
        const lower = slopeOfRank(drawn, Math.floor((runs - 1) / 2)) ?? Number.NaN;
        const upper = slopeOfRank(drawn, Math.floor(runs / 2)) ?? Number.NaN;
        expect(near(line?.slope ?? Number.NaN, (lower + upper) / 2)).toBe(true);
      }),
    );
  });

  it('follows when time and value are measured in other units from another start', () => {
    const factor = fc.double({ min: 0.05, max: 40, noNaN: true });
    const shift = fc.double({ min: -500, max: 500, noNaN: true });
    fc.assert(
      fc.property(points, factor, shift, factor, shift, fc.boolean(), (drawn, a, b, c, d, turned) => {
        const line = lineOf(drawn);
        const sign = turned ? -1 : 1;
        const other = lineOf(drawn.map(({ time, value }) => ({ time: a * time + b, value: sign * (c * value + d) })));
        if (!line || !other) return expect(other).toBe(line);
        const rate = (sign * c) / a;
        expect(near(other.slope, rate * line.slope)).toBe(true);
        const ends = [rate * line.low, rate * line.high];
        expect(near(other.low, Math.min(...ends))).toBe(true);
        expect(near(other.high, Math.max(...ends))).toBe(true);
        expect(other.level).toBe(line.level);
      }),
    );
  });

  it('is the same in whatever order the films are told', () => {
    const shuffled = points.chain((drawn) =>
      fc.tuple(fc.constant(drawn), fc.shuffledSubarray(drawn, { minLength: drawn.length, maxLength: drawn.length })),
    );
    fc.assert(
      fc.property(shuffled, ([drawn, mixed]) => {
        expect(lineOf(mixed)).toEqual(lineOf(drawn));
        expect(orderOf(mixed)).toEqual(orderOf(drawn));
      }),
    );
  });

  it('lies in its interval, and goes through the middle', () => {
    fc.assert(
      fc.property(points, (drawn) => {
        const line = lineOf(drawn);
        if (!line) return;
        expect(line.low).toBeLessThanOrEqual(line.slope);
        expect(line.high).toBeGreaterThanOrEqual(line.slope);
        expect(near(line.intercept + line.slope * line.middle.time, line.middle.value, 100)).toBe(true);
      }),
    );
  });

  it('says the level that so few points reach: counted over every order of the same residuals', () => {
    fc.assert(
      fc.property(untied, ({ times, values }) => {
        const line = theilSen(times, values);
        // The interval holds a true slope of 0 for the share of orders whose slopes do not all lie on one side of it.
        const orders = permutations(values);
        const held = orders.filter((order) => {
          const one = theilSen(times, order);
          return one !== null && one.low <= 0 && 0 <= one.high;
        }).length;
        const share = held / orders.length;
        if (times.length <= 4) expect(line?.level).toBeCloseTo(share, 12);
        else expect(share).toBeGreaterThanOrEqual(0.95);
      }),
      { numRuns: 25 },
    );
  });
});

describe('the test by Mann and Kendall', () => {
  it('has the p of all orders counted one by one', () => {
    fc.assert(
      fc.property(untied, ({ times, values }) => {
        const ours = mannKendall(times, values);
        const sums = permutations(values).map((order) => Math.abs(mannKendall(times, order)?.s ?? 0));
        const asGood = sums.filter((s) => s >= Math.abs(ours?.s ?? 0)).length;
        expect(ours?.how).toBe('exact');
        expect(ours?.p).toBeCloseTo(asGood / sums.length, 12);
      }),
      { numRuns: 25 },
    );
  });

  it('has the variance of all orders counted one by one, ties and all', () => {
    const few = fc.array(fc.record({ time: fc.integer({ min: 0, max: 4 }), value: fc.integer({ min: 0, max: 4 }) }), {
      minLength: 3,
      maxLength: 6,
    });
    fc.assert(
      fc.property(few, (drawn) => {
        const times = drawn.map(({ time }) => time);
        const sums = permutations(drawn.map(({ value }) => value)).map((order) => mannKendall(times, order)?.s ?? 0);
        const variance = sums.reduce((sum, s) => sum + s * s, 0) / sums.length;
        expect(orderOf(drawn)?.variance).toBeCloseTo(variance, 9);
      }),
      { numRuns: 60 },
    );
  });

  it('is never surer than always, and turns round with the values', () => {
    fc.assert(
      fc.property(points, (drawn) => {
        const order = orderOf(drawn);
        const turned = orderOf(drawn.map(({ time, value }) => ({ time, value: -value })));
        expect(order?.p).toBeGreaterThan(0);
        expect(order?.p).toBeLessThanOrEqual(1);
        expect([turned?.s, turned?.p]).toEqual([-(order?.s ?? 0) + 0, order?.p]);
      }),
    );
  });
});

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, at) =>
    permutations(items.filter((_, other) => other !== at)).map((rest) => [item, ...rest]),
  );
}
