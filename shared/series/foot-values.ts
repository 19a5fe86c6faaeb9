import type { CourseSource } from '../course/course-sources.ts';
import { dayOf, inOrderOfDays } from '../course/order-of-days.ts';
import { tapesOfVisit } from '../course/taped-series.ts';
import type { FootName } from '../notation/choices.ts';
import type { Study } from '../trim/study.ts';

/** What one measure came to on one foot of a case at one time, over all films and readings of that time. */
export interface FootValue {
  readonly foot: FootName;
  /** As `dayNumber` counts; null where nobody knows it. */
  readonly day: number | null;
  /** The number of its visit by the days of the visits, from 1. */
  readonly visit: number;
  readonly value: number;
}

/**
 * The values of a measure in one case, of one source. Readings of one film are one value, their mean: people who read the same film
 * are not more feet. Each film (each tape) still is one here; films of one time are made one by `atOneTime()`.
 */
export function valuesOf(study: Study, measure: string, source: CourseSource): FootValue[] {
  const numbers = new Map(inOrderOfDays(study.record.visits).map((visit, index) => [visit.start, index + 1]));
  const numberOf = (start: number): number => numbers.get(start) ?? 0;
  if (source === 'hand')
    return study.record.visits.flatMap((visit) =>
      tapesOfVisit(visit).flatMap(({ foot, values }) =>
        values
          .filter((one) => one.measure.name === measure)
          .map(({ value }) => ({ foot, day: dayOf(visit), visit: numberOf(visit.start), value })),
      ),
    );
  return study.films.flatMap(({ film, day, visit, readings }): FootValue[] => {
    if (film.kind !== source) return [];
    const values = readings.flatMap(({ taking }) => taking.values.get(measure as never)?.value ?? []);
    if (values.length === 0) return [];
    return [{ foot: film.foot, day, visit: numberOf(visit.start), value: mean(values) }];
  });
}

/** Films of one foot that have the same time made one, by their mean; in the order in which the times come. */
export function atOneTime(
  values: readonly FootValue[],
  timeOf: (value: FootValue) => number,
): { readonly foot: FootName; readonly time: number; readonly value: number }[] {
  const groups = new Map<string, { foot: FootName; time: number; values: number[] }>();
  for (const value of values) {
    const time = timeOf(value);
    const key = `${value.foot} ${time}`;
    const group = groups.get(key) ?? { foot: value.foot, time, values: [] };
    group.values.push(value.value);
    groups.set(key, group);
  }
  return [...groups.values()]
    .map(({ foot, time, values: all }) => ({ foot, time, value: mean(all) }))
    .sort((a, b) => a.time - b.time);
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
