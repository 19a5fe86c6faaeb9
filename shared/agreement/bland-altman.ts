import { SURELY } from '../course/change.ts';
import { around, tQuantile, type Interval } from './interval.ts';
import { mean, squaresAround } from './mean-squares.ts';

/** A number that was estimated, with its standard error and interval. */
export interface Estimate {
  readonly value: number;
  readonly se: number;
  readonly interval: Interval;
}

/** Two readers of the same films: the first one's value less the second one's. */
export interface PairAgreement {
  readonly films: number;
  readonly bias: Estimate;
  /** Standard deviation of the differences. */
  readonly sd: number;
  /** Within both lie 95 of 100 differences, if they are normal and do not hang on the size. */
  readonly lower: Estimate;
  readonly upper: Estimate;
  /** By how much the difference grows for each unit of the mean; null with fewer than three films, or where all means are the same. */
  readonly slope: Estimate | null;
  /** Whether the slope's interval leaves out 0: the readers' scales, or their errors, are not the same. */
  readonly isProportional: boolean;
}

/**
 * Bias and 95 % limits of agreement. Limits are the bias and 1.96 standard deviations; the variance of a limit is
 * s²/n + 1.96² s² / 2(n − 1) (Bland and Altman 1999, section 2; of 1986 the round 3 s²/n), intervals by t with n − 1.
 * Proportional bias: the slope of the differences on the means (Bland and Altman 1999, section 3.2).
 *
 * @returns null with fewer than two films
 */
export function blandAltman(pairs: readonly (readonly [first: number, second: number])[]): PairAgreement | null {
  const n = pairs.length;
  if (n < 2) return null;
  const differences = pairs.map(([first, second]) => first - second);
  const bias = mean(differences);
  const sd = Math.sqrt(squaresAround(differences, bias) / (n - 1));
  const t = tQuantile(n - 1);
  const limitSe = sd * Math.sqrt(1 / n + (SURELY * SURELY) / (2 * (n - 1)));
  const estimate = (value: number, se: number): Estimate => ({ value, se, interval: around(value, t * se) });
  const means = pairs.map(([first, second]) => (first + second) / 2);
  const slope = slopeOf(means, differences);
  return {
    films: n,
    bias: estimate(bias, sd / Math.sqrt(n)),
    sd,
    lower: estimate(bias - SURELY * sd, limitSe),
    upper: estimate(bias + SURELY * sd, limitSe),
    slope,
    isProportional: slope !== null && (slope.interval.low > 0 || slope.interval.high < 0),
  };
}

/** Least squares. */
function slopeOf(xs: readonly number[], ys: readonly number[]): Estimate | null {
  const n = xs.length;
  if (n < 3) return null;
  const [x, y] = [mean(xs), mean(ys)];
  const squares = squaresAround(xs, x);
  if (!(squares > 1e-12 * x * x)) return null;
  const value = xs.reduce((sum, one, i) => sum + (one - x) * ((ys[i] as number) - y), 0) / squares;
  const left = xs.reduce((sum, one, i) => sum + ((ys[i] as number) - y - value * (one - x)) ** 2, 0);
  const se = Math.sqrt(left / (n - 2) / squares);
  return { value, se, interval: around(value, tQuantile(n - 2) * se) };
}
