import { countWhile } from '../notation/count-while.ts';
import { dayNumber } from '../notation/dates.ts';
import { once } from '../notation/once.ts';
import type { Placed, Visit } from '../record/schema.ts';

/**
 * The days on which the vet has seen the animal, and which of them count. A slip in the year would close every alarm up to
 * then, those too that nobody has raised yet, so a line closes only what could be known where it is written.
 */
export interface VetVisit {
  /** `dayNumber`, and as written. */
  readonly day: number;
  readonly date: string;
  /** Which visit of the text it is written in, from 0. */
  readonly place: number;
  readonly visit: Placed<Visit>;
  readonly at: Visit['seen'][number]['at'];
  /** Why it closes nothing; null where it counts. */
  readonly refused: RefusedVisit | null;
}

/** `late`: too long after the visit that it stands in, of day `from`. `next`: not before the next visit, of day `from`. */
export interface RefusedVisit {
  readonly by: 'late' | 'next';
  readonly from: number;
}

/** Days after a visit up to which its block may still say that the vet came. A judgement of ours. */
export const stillWritten = 14;

/** Ascending by day; looked for once for a record, as several rules ask. */
export const vetVisits = once((visits: readonly Placed<Visit>[]): readonly VetVisit[] => {
  if (!visits.some(({ is }) => is.seen.length > 0)) return [];
  const days = visits.map(({ is }) => (is.date === null ? null : dayNumber(is.date)));
  const ascending = days.filter((day) => day !== null).sort((a, b) => a - b);
  const found: VetVisit[] = [];
  // A visit without a date stands where the one before it does.
  let from: number | null = null;
  visits.forEach((visit, place) => {
    from = days[place] ?? from;
    for (const { date, at } of visit.is.seen) {
      const day = dayNumber(date);
      if (day !== null) found.push({ day, date, place, visit, at, refused: refusal(day, from, ascending) });
    }
  });
  return found.sort((a, b) => a.day - b.day);
});

/** Those that count. */
export const counted = (visits: readonly Placed<Visit>[]): VetVisit[] =>
  vetVisits(visits).filter(({ refused }) => refused === null);

function refusal(day: number, from: number | null, ascending: readonly number[]): RefusedVisit | null {
  if (from === null || day <= from) return null;
  if (day > from + stillWritten) return { by: 'late', from };
  const next = ascending[countWhile(ascending, (one) => one <= from)];
  return next !== undefined && day >= next ? { by: 'next', from: next } : null;
}
