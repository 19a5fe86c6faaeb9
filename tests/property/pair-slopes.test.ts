import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inversions } from '../../shared/course/inversions.ts';
import { mannKendall } from '../../shared/course/mann-kendall.ts';
import { pairSlopes } from '../../shared/course/pair-slopes.ts';
import { theilSen } from '../../shared/course/theil-sen.ts';

interface Drawn {
  readonly times: readonly number[];
  readonly values: readonly number[];
}

/** Days and values with few or many ties, days repeated, in any order. */
const series = fc
  .record({
    days: fc.constantFrom(1, 3, 40, 2000),
    steps: fc.constantFrom(1, 4, 60, 1_000_000),
    count: fc.integer({ min: 2, max: 250 }),
  })
  .chain(({ days, steps, count }) =>
    fc.record({
      times: fc.array(fc.integer({ min: 18_000, max: 18_000 + days }), { minLength: count, maxLength: count }),
      values: fc.array(
        fc.integer({ min: -steps, max: steps }).map((step) => (step * 12) / steps),
        { minLength: count, maxLength: count },
      ),
    }),
  );

/** Every slope, by two loops and a sort; 0 for -0. */
function everySlope({ times, values }: Drawn): number[] {
  const slopes: number[] = [];
  times.forEach((time, one) => {
    for (let other = one + 1; other < times.length; other++)
      if (times[other] !== time)
        slopes.push(((values[other] as number) - (values[one] as number)) / ((times[other] as number) - time) + 0);
  });
  return slopes.sort((a, b) => a - b);
}

describe('slopes of all pairs that are sought and not all made', () => {
  it('are at each rank those that are made and sorted, but for rounding', () => {
    fc.assert(
      fc.property(series, fc.array(fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true })), (drawn, shares) => {
        const slopes = everySlope(drawn);
        const sought = pairSlopes(drawn.times, drawn.values, 0);
        expect(sought.length).toBe(slopes.length);
        if (slopes.length === 0) return;
        for (const rank of [0, slopes.length - 1, ...shares.map((share) => Math.floor(share * slopes.length))])
          expect(Math.abs(sought.at(rank) - (slopes[rank] as number))).toBeLessThan(1e-10);
      }),
      { numRuns: 300 },
    );
  });

  it('are bit for bit those of two loops where they are few enough to be made', () => {
    fc.assert(
      fc.property(series, (drawn) => {
        const slopes = everySlope(drawn);
        const made = pairSlopes(drawn.times, drawn.values);
        expect(Array.from({ length: made.length }, (_, rank) => made.at(rank) + 0)).toEqual(slopes);
      }),
      { numRuns: 50 },
    );
  });
});

describe('pairs the wrong way round', () => {
  it('are as many as two loops find', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { maxLength: 300 }), (numbers) => {
        const counted = numbers.reduce(
          (sum, number, index) => sum + numbers.slice(index + 1).filter((later) => later < number).length,
          0,
        );
        expect(inversions(Float64Array.from(numbers))).toBe(counted);
      }),
    );
  });

  it('give the S of Mann and Kendall as two loops do', () => {
    fc.assert(
      fc.property(series, ({ times, values }) => {
        let s = 0;
        for (let i = 0; i < times.length; i++)
          for (let j = i + 1; j < times.length; j++)
            s +=
              Math.sign((times[j] as number) - (times[i] as number)) *
              Math.sign((values[j] as number) - (values[i] as number));
        // Not by toBe, which tells 0 from -0.
        if (times.length > 2) expect((mannKendall(times, values)?.s ?? NaN) === s).toBe(true);
      }),
    );
  });
});

describe('hundreds of films of few days', () => {
  it('have a level, whatever their factorials are', () => {
    const times = Array.from({ length: 600 }, (_, index) => index % 3);
    expect(
      theilSen(
        times,
        times.map((time, index) => time + Math.sin(index)),
      )?.level,
    ).toBe(0.95);
  });
});
