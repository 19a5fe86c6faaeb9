import { deviationInterval, type Interval } from './interval.ts';
import type { OwnSpread } from './own-spread.ts';

/** Its 95 % interval, mm. Apart from the spread itself, which the server knows without the library of distributions. */
export const spreadInterval = ({ mm, df }: OwnSpread): Interval => deviationInterval(mm, df);
