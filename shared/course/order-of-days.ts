import { dayNumber } from '../notation/dates.ts';
import { once } from '../notation/once.ts';
import type { Placed, Visit } from '../record/schema.ts';

/**
 * The visits as they came one after the other: by their days, those of one day in the order of the text. One without a date stays
 * behind the one that it is written below. What is newest is so by its day, however a file is laid out.
 */
export const inOrderOfDays = once((visits: readonly Placed<Visit>[]): readonly Placed<Visit>[] => {
  let last = -Infinity;
  const dated = visits.map((visit) => {
    last = dayOf(visit) ?? last;
    return { visit, day: last };
  });
  if (dated.every(({ day }, index) => index === 0 || day >= (dated[index - 1]?.day ?? day))) return visits;
  return dated.toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0)).map(({ visit }) => visit);
});

export const dayOf = ({ is: { date } }: Placed<Visit>): number | null => (date === null ? null : dayNumber(date));
