import type { GrowthSource } from './growth-sources.ts';
import { dateOfDay } from '../notation/dates.ts';
import { usualGrowth } from '../reference/growth.ts';
import type { TheilSen } from './theil-sen.ts';

/** When new wall reaches the ground, if it goes on growing as it has, or as wall usually does. */
export interface GrowOut {
  /** Whose growth it goes by: the foot's own on films or by tape, else what is usual. */
  readonly by: GrowthSource;
  /** mm from hairline to ground on the newest film: how far the new wall has to come. */
  readonly toeLength: number;
  /** Null where the wall has not come down: the slope is 0 or less. */
  readonly date: string | null;
  /** Ends of the interval of the date; null where it is open: growth as slow as that never gets there. */
  readonly early: string | null;
  readonly late: string | null;
}

/** Later than a date can be written. */
const LAST_DAY = 2_932_896;

/**
 * The line of `grown-out` by day, carried on to `toeLength`, mm; the interval by its least and its largest slope through the same middle.
 * The level of the interval is the line's.
 */
export function growOut(
  { slope, low, high, middle }: Pick<TheilSen, 'slope' | 'low' | 'high' | 'middle'>,
  toeLength: number,
  by: GrowOut['by'],
): GrowOut {
  const dateAt = (rate: number): string | null => {
    const day = Math.round(middle.time + (toeLength - middle.value) / rate);
    return rate > 0 && day <= LAST_DAY ? dateOfDay(day) : null;
  };
  // Where the wall is longer than the toe by the middle of the course already, the slower growth is the earlier date.
  const ends = toeLength >= middle.value ? ([high, low] as const) : ([low, high] as const);
  return { by, toeLength, date: dateAt(slope), early: dateAt(ends[0]), late: dateAt(ends[1]) };
}

/** By what is usual, from one film on: for a foot whose films and tapes do not tell how fast its wall grows. */
export function usualGrowOut(grownOut: number, day: number, toeLength: number): GrowOut {
  const { slow, middle, fast } = usualGrowth;
  return growOut({ slope: middle, low: slow, high: fast, middle: { time: day, value: grownOut } }, toeLength, 'usual');
}
