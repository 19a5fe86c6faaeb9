import { dayNumber } from '../../notation/dates.ts';
import type { When } from '../../trim/film-series.ts';
import type { Study, StudiedFilm } from '../../trim/study.ts';

/** Where a plan is to stand, so that it is laid on the foot as it is there and then. */
export interface PlanPlace {
  readonly foot: string;
  readonly moment: When;
  /** As it is written; the day of the plan. */
  readonly date: string;
}

/** The end of the file, on the day of its newest visit; null where no visit has a date. */
export function atEnd(foot: string, { record, films }: Pick<Study, 'record' | 'films'>): PlanPlace | null {
  const dates = record.visits.flatMap(({ is }) => is.date ?? []);
  for (const { film } of films) if (film.foot === foot && film.taken !== null) dates.push(film.taken);
  const date = dates
    .filter((one) => dayNumber(one) !== null)
    .toSorted()
    .at(-1);
  return date === undefined ? null : { foot, moment: { day: dayNumber(date) ?? 0, at: Infinity }, date };
}

/** Right below a film; null where its visit has no date. */
export function below({ film, visit }: StudiedFilm): PlanPlace | null {
  const { date } = visit.is;
  const day = date === null ? null : dayNumber(date);
  return date === null || day === null
    ? null
    : { foot: film.foot, moment: { day, at: visit.start + film.at.end }, date };
}
