import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import { scaleUtc, type ScaleTime } from 'd3-scale';
import { widthInEm } from '../plate/lettering.ts';

const MS = 86_400_000;
const dateOf = (day: number): Date => new Date(day * MS);
const dayOf = (date: Date | undefined): number => Math.floor((date?.getTime() ?? Number.NaN) / MS);

/** Pixels by day. */
export interface TimeScale {
  readonly first: number;
  readonly last: number;
  /** The end of what is shown: the last film and some time to come. */
  readonly horizon: number;
  x(day: number): number;
  readonly ticks: readonly TimeTick[];
}

export interface TimeTick {
  readonly x: number;
  readonly text: string;
}

interface Room {
  readonly left: number;
  readonly right: number;
  /** Size of the letters, pixels. */
  readonly em: number;
  /** Whether time to come is shown. */
  readonly ahead: boolean;
}

/** The least that is shown of the time to come, in days, and the share of the course that it takes otherwise. */
const AHEAD_DAYS = 14;
const AHEAD_SHARE = 0.22;

/** A stroke at the very edge of a row would be cut. */
const INSET = 10;

/** `days` in their order, at least one. */
export function timeScale(days: readonly number[], { left, right, em, ahead }: Room): TimeScale {
  const first = days[0] ?? 0;
  const last = days.at(-1) ?? first;
  const horizon = ahead ? last + Math.max((last - first) * AHEAD_SHARE, AHEAD_DAYS) : last;
  const scale = scaleUtc([dateOf(first), dateOf(Math.max(horizon, first + 1))], [left + INSET, right - INSET]);
  return { first, last, horizon, x: (day) => scale(dateOf(day)), ticks: timeTicks(scale, { left, right, em }) };
}

/** As many names of months, days or years as stand side by side with a blank between them. */
function timeTicks(scale: ScaleTime<number, number>, { left, right, em }: Omit<Room, 'ahead'>): TimeTick[] {
  for (let count = Math.max(Math.floor((right - left) / (5.5 * em)), 2); count >= 1; count--) {
    const half = (text: string): number => (widthInEm(text) * em) / 2;
    const dates = scale.ticks(count);
    const isInside = ({ x, text }: TimeTick): boolean => x - half(text) >= left - 2 * em && x + half(text) <= right;
    // Named anew where one falls away: the year stands at the first that is left.
    const inside = dates.filter((_, index) => named(scale, dates.slice(index)).slice(0, 1).every(isInside));
    // Within a few days there are ticks of hours, which all have the name of their day.
    const ticks = named(
      scale,
      inside.filter((date, index) => dayOf(date) !== dayOf(inside[index - 1])),
    );
    if (areClear(ticks, em)) return ticks;
  }
  return [];
}

function areClear(ticks: readonly TimeTick[], em: number): boolean {
  return ticks.every(({ x, text }, index) => {
    const next = ticks[index + 1];
    return !next || x + (widthInEm(text) * em) / 2 + 0.8 * em < next.x - (widthInEm(next.text) * em) / 2;
  });
}

const months = spoken([
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]);

function named(scale: ScaleTime<number, number>, dates: readonly Date[]): TimeTick[] {
  const [first, second] = dates;
  const step = first && second ? (second.getTime() - first.getTime()) / MS : 31;
  let year: number | null = null;
  return dates.map((date) => {
    const month = months[date.getUTCMonth()] ?? '';
    const isNew = date.getUTCFullYear() !== year;
    year = date.getUTCFullYear();
    const text =
      step > 300
        ? String(year)
        : step < 27
          ? t('{0} {1} {2}', date.getUTCDate(), month, isNew ? year : '').trim()
          : `${month}${isNew ? ` ${year}` : ''}`;
    return { x: scale(date), text };
  });
}
