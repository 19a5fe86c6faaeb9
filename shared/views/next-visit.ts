import { sayDay } from '../findings/wording/say-day.ts';
import { dayNumber } from '../notation/dates.ts';
import type { Placed, Visit } from '../record/schema.ts';

/** When the animal is to be seen again. */
export interface NextVisit {
  /** As `dayNumber` counts. */
  readonly day: number;
  /** The visit that says so, and the place of its line in it. */
  readonly visit: Placed<Visit>;
  readonly at: NonNullable<Visit['next']>['at'];
}

/** Days before the next visit from when on another one stands for it. A judgement of ours. */
const early = 7;

/**
 * The next visit by the newest that names one; null where none does, or it has been since. One that comes long before it, as to an
 * emergency, leaves it as it was agreed.
 */
export function nextVisit(visits: readonly Placed<Visit>[]): NextVisit | null {
  const dated = visits.flatMap((visit) => {
    const day = visit.is.date === null ? null : dayNumber(visit.is.date);
    return day === null ? [] : [{ visit, day }];
  });
  const named = dated.flatMap(({ visit, day: said }) => {
    const { next } = visit.is;
    if (!next) return [];
    const day = 'date' in next ? dayNumber(next.date) : said + Math.round(next.after.base);
    return day === null ? [] : [{ said, next: { day, visit, at: next.at } }];
  });
  const [newest] = named.toSorted((a, b) => b.said - a.said || b.next.visit.start - a.next.visit.start);
  if (!newest) return null;
  const hasBeen = dated.some(({ day }) => day > newest.said && day >= newest.next.day - early);
  return hasBeen ? null : newest.next;
}

/** When the animal is to be seen again, on the day of a page. */
export interface NextDate {
  readonly words: string;
  readonly isPast: boolean;
}

export function nextDate(visits: readonly Placed<Visit>[], date: string): NextDate | null {
  const next = nextVisit(visits);
  return next && { words: sayDay(next.day), isPast: next.day < (dayNumber(date) ?? 0) };
}
