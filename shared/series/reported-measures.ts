import { t } from '../language/words.ts';
import type { CourseSource } from '../course/course-sources.ts';
import { findHandMeasure, handMeasures } from '../measures/by-hand.ts';
import { findMeasure, measures } from '../measures/registry.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { firstOfFilms, firstWithoutFilm } from '../views/first-measures.ts';

/** A measure that a series tells of. */
export interface ReportedMeasure {
  readonly name: string;
  readonly words: string;
  readonly unit: MeasureUnit;
}

export type AskedMeasures =
  | { readonly measures: readonly ReportedMeasure[]; readonly problem: null }
  | {
      readonly measures: null;
      readonly problem: string;
    };

/**
 * Those that are asked for: by their names, or all that a source has, else the first things first, as the course of a foot shows them.
 */
export function reportedMeasures(named: readonly string[], all: boolean, source: CourseSource): AskedMeasures {
  const known = source === 'hand' ? [...measures.filter(({ byHand }) => byHand), ...handMeasures] : measures;
  const first: readonly string[] = (source === 'film' ? firstOfFilms : firstWithoutFilm).flat();
  const wanted = named.length > 0 ? named : all ? known.map(({ name }) => name) : first;
  const found: ReportedMeasure[] = [];
  for (const name of new Set(wanted)) {
    const measure = findMeasure(name) ?? (source === 'hand' ? findHandMeasure(name) : undefined);
    if (measure) found.push(measure);
    else if (named.length > 0) return { measures: null, problem: t('there is no measure «{0}»', name) };
  }
  return { measures: found, problem: null };
}
