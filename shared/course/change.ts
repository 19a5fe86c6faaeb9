/** A value with its standard deviation. */
export interface Uncertain {
  readonly value: number;
  readonly sd: number;
}

export interface Change {
  /** The later value less the earlier one. */
  readonly difference: number;
  readonly sd: number;
  /** Whether it is more than its error at 95 % and more than the floor; else it lies within the error. */
  readonly clear: boolean;
}

/** Half the width of a 95 % interval, in standard deviations. */
export const SURELY = 1.96;

/**
 * How a value changed between two films of one foot. `floor`: what a change has to pass beside its standard deviation; `shared`:
 * the covariance of the two values, where one film's placings were followed from the other's.
 */
export function changeBetween(was: Uncertain, now: Uncertain, floor: number, shared = 0): Change {
  const difference = now.value - was.value;
  const sd = Math.sqrt(Math.max(0, was.sd ** 2 + now.sd ** 2 - 2 * shared));
  return { difference, sd, clear: Math.abs(difference) > Math.max(floor, SURELY * sd) };
}
