/** A value with its standard deviation. */
export interface Uncertain {
  readonly value: number;
  readonly sd: number;
}

export interface Change {
  /** The later value less the earlier one. */
  readonly difference: number;
  readonly sd: number;
  /** Whether it is more than placing explains, at 95 %; else it lies within the error. */
  readonly real: boolean;
}

/** Half the width of a 95 % interval, in standard deviations. */
export const SURELY = 1.96;

/** How a value changed between two films of one foot. */
export function changeBetween(was: Uncertain, now: Uncertain): Change {
  const difference = now.value - was.value;
  const sd = Math.hypot(was.sd, now.sd);
  return { difference, sd, real: Math.abs(difference) > SURELY * sd };
}
