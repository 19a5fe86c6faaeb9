import { expect, it } from 'vitest';
import { RunningSum } from '../../shared/series/running-sum.ts';

const sumOf = (values: readonly number[]): RunningSum => {
  const sum = new RunningSum();
  for (const value of values) sum.add(value);
  return sum;
};

// NIST Statistical Reference Datasets, univariate: NumAcc3 and NumAcc4, whose certified mean and standard deviation are
// 1000000.2 and 10000000.2, each 0.1 (from memory; by construction the mean is the first value and the others lie 0.1 off it).
it.each([
  ['NumAcc3', 1_000_000.2, 1_000_000.1, 1_000_000.3],
  ['NumAcc4', 10_000_000.2, 10_000_000.1, 10_000_000.3],
])('%s: digits are kept where the squares of the values would have lost them', (_, mean, low, high) => {
  const sum = sumOf([mean, ...Array.from({ length: 500 }, () => [low, high]).flat()]);
  expect(sum.n).toBe(1001);
  expect(sum.mean).toBeCloseTo(mean, 8);
  expect(sum.sd).toBeCloseTo(0.1, 8);
  expect([sum.least, sum.greatest]).toEqual([low, high]);
});

it('has no spread of one number, none of equal ones, and nothing of none', () => {
  expect(sumOf([4]).sd).toBeNull();
  expect(sumOf([4, 4, 4]).sd).toBe(0);
  expect(sumOf([]).mean).toBeNaN();
});
