import jStat from 'jstat';

/** A 95 % interval. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Half of what a 95 % interval leaves out. */
const UPPER = 0.975;

/** 97.5 % of the t distribution lie below it. @param df 1 or more */
export const tQuantile = (df: number): number => jStat.studentt.inv(UPPER, df);

/** 97.5 % of the F distribution lie below it. @param df1 and `df2` above 0, no whole numbers needed */
export const fQuantile = (df1: number, df2: number): number => jStat.centralF.inv(UPPER, df1, df2);

/**
 * The interval of a standard deviation of normal errors, by the chi-square distribution.
 *
 * @param df 1 or more
 */
export function deviationInterval(sd: number, df: number): Interval {
  const squares = sd * sd * df;
  return {
    low: Math.sqrt(squares / jStat.chisquare.inv(UPPER, df)),
    high: Math.sqrt(squares / jStat.chisquare.inv(1 - UPPER, df)),
  };
}

/** `half` to both sides of a value. */
export const around = (value: number, half: number): Interval => ({ low: value - half, high: value + half });

/** Null where an end is no number, as where a quantile lies beyond all that a number can hold. */
export const finite = (interval: Interval): Interval | null =>
  Number.isFinite(interval.low) && Number.isFinite(interval.high) ? interval : null;
