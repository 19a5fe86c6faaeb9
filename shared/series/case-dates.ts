import { dayOf } from '../course/order-of-days.ts';
import { dateOfDay, dayNumber, daysOf, readDate } from '../notation/dates.ts';
import type { CaseRecord, Placed, Visit } from '../record/schema.ts';

/** The days of a case as a series has them: counted from its first visit, and no date of the calendar unless one is asked for. */
export class CaseDates {
  /** As `dayNumber` counts; null where no visit has a date. */
  readonly first: number | null;
  readonly last: number | null;
  readonly #birth: string | null;
  readonly #onset: string | null;

  constructor({ animal, visits }: Pick<CaseRecord, 'animal' | 'visits'>) {
    const days = visits.map(dayOf).filter((day) => day !== null);
    this.first = days.length > 0 ? days.reduce((a, b) => Math.min(a, b)) : null;
    this.last = days.length > 0 ? days.reduce((a, b) => Math.max(a, b)) : null;
    this.#birth = animal?.is.foaled ?? null;
    this.#onset = animal?.is.onset?.date ?? null;
  }

  /** Days since the first visit. @param day as `dayNumber` counts */
  since(day: number | null): number | null {
    return day === null || this.first === null ? null : day - this.first;
  }

  /**
   * Whole years of age. Of a birth date that lacks its day or month the age at the first visit is taken and the years since then are
   * added: else the day on which the number goes up would tell where in the calendar the visits lie.
   */
  ageOn(day: number | null): number | null {
    const born = this.#birth === null ? null : daysOf(this.#birth);
    if (!born || day === null || this.first === null || this.#birth === null) return null;
    const isWhole = dayNumber(this.#birth) !== null && readDate(this.#birth)?.day !== null;
    const age = isWhole
      ? yearsBetween(born.last, day)
      : yearsBetween(born.last, this.first) + Math.floor((day - this.first) / daysOfYear);
    return age < 0 ? null : age;
  }

  /** Whole months from the onset to the first visit; null where the onset is a year alone, or comes after it. */
  get onsetMonths(): number | null {
    const onset = this.#onset !== null && /-/.test(this.#onset) ? daysOf(this.#onset) : null;
    if (!onset || this.first === null) return null;
    const months = Math.round((this.first - (onset.first + onset.last) / 2) / daysOfMonth);
    return months < 0 ? null : months;
  }
}

const daysOfYear = 365.25;
const daysOfMonth = daysOfYear / 12;

function yearsBetween(born: number, day: number): number {
  const [from, to] = [readDate(dateOfDay(born)), readDate(dateOfDay(day))];
  if (!from || !to) return Math.floor((day - born) / daysOfYear);
  const before = to.month < from.month || (to.month === from.month && (to.day ?? 1) < (from.day ?? 1));
  return to.year - from.year - (before ? 1 : 0);
}

/** Days until the next visit as one plans it. */
export function daysToNext({ is }: Placed<Visit>): number | null {
  if (!is.next) return null;
  if ('after' in is.next) return Math.round(is.next.after.base);
  const [from, to] = [is.date === null ? null : dayNumber(is.date), dayNumber(is.next.date)];
  return from === null || to === null ? null : to - from;
}
