import type { Measure } from '../measures/registry.ts';
import { once } from '../notation/once.ts';
import type { MeasureName } from '../measures/names.ts';
import type { Value } from '../measures/take.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';
import { changeBetween, type Change, type Uncertain } from './change.ts';
import { floorOf } from '../trim/change-settings.ts';
import { errorOfMeasure, type ErrorOnFilm } from './followed.ts';
import { hasRepeatFilms, repeatFilms } from './repeat-films.ts';
import { repeatSpread } from './repeat-reads.ts';
import { readingOfFilm } from './value-of-film.ts';

/**
 * What the films of a case say of their own error. Films repeated on one day carry all of it, and stand in place of what is
 * assumed and of the floors; repeated readings of one film carry placing only.
 */
export interface ErrorOfFilms {
  /** All of one film's error, observed; null where there are too few repeated films. */
  ofFilms(measure: MeasureName): number | null;
  /** One reading's, observed; null where there are too few repeated readings. */
  ofReadings(measure: MeasureName): number | null;
}

/** Looked up once for a study and a measure. */
export const errorOfFilms = once((study: Pick<Study, 'films'>): ErrorOfFilms => {
  const repeated = hasRepeatFilms(study.films);
  const films = new Map<MeasureName, number | null>();
  const readings = new Map<MeasureName, number | null>();
  const looked = (
    in_: Map<MeasureName, number | null>,
    measure: MeasureName,
    look: () => number | null,
  ): number | null => {
    const found = in_.get(measure);
    if (found !== undefined) return found;
    const sd = look();
    in_.set(measure, sd);
    return sd;
  };
  return {
    ofFilms: (measure) => (repeated ? looked(films, measure, () => repeatFilms(study, measure)?.sd ?? null) : null),
    ofReadings: (measure) => looked(readings, measure, () => repeatSpread(study, measure)?.sd ?? null),
  };
});

/**
 * One standard deviation of a value of this case: observed where there is enough to observe, else from the placings. What
 * was observed knows nothing of the error of a scale from the bones, which all lengths of its `film` share: it is added.
 */
export function spreadOf(
  { measure, value, sd }: Value,
  study: Pick<Study, 'films'>,
  film?: Pick<StudiedFilm, 'bone'>,
): number {
  const error = errorOfFilms(study);
  const observed = error.ofFilms(measure.name) ?? error.ofReadings(measure.name);
  if (observed === null) return sd;
  return measure.kind === 'length' ? Math.hypot(observed, scaleSd(film) * value) : observed;
}

/** One standard deviation of a scale from the bones, as a share; 0 for others, whose error lies in the values already. */
export function scaleSd(film: Pick<StudiedFilm, 'bone'> | undefined): number {
  return film?.bone && 'input' in film.bone ? film.bone.input.relativeSd : 0;
}

/** How a measure changed between two films whose standard deviations are known; `shared`: the covariance of the two values. */
export function changeOf(
  was: Uncertain,
  now: Uncertain,
  measure: Measure,
  study: Pick<Study, 'films' | 'change'>,
  shared = 0,
): Change {
  const floor = errorOfFilms(study).ofFilms(measure.name) === null ? floorOf(measure, study.change) : 0;
  return changeBetween(was, now, floor, shared);
}

/**
 * The covariance of a measure on two films, as one film's placings were followed from the other's. 0 where nothing was, and
 * where an observed deviation stands in for that of the placings: it has no part in it that is known to be shared.
 */
export function sharedError(
  measure: Measure,
  [was, now]: readonly [StudiedFilm, StudiedFilm],
  study: Pick<Study, 'films' | 'series'>,
): number {
  const [before, after] = [errorOf(measure, was, study), errorOf(measure, now, study)];
  const covariance = before && after ? after.with(before) : 0;
  if (covariance === 0) return 0;
  const error = errorOfFilms(study);
  return (error.ofFilms(measure.name) ?? error.ofReadings(measure.name)) === null ? covariance : 0;
}

function errorOf(measure: Measure, film: StudiedFilm, { series }: Pick<Study, 'series'>): ErrorOnFilm | null {
  const studied = readingOfFilm(film);
  return studied ? errorOfMeasure(measure, film, studied, series) : null;
}

/** How a measure changed from one film of a foot to a later one. */
export function changeOfValue(
  was: Value,
  now: Value,
  study: Pick<Study, 'films' | 'change' | 'series'>,
  films?: readonly [was: StudiedFilm, now: StudiedFilm],
): Change {
  return changeOf(
    { value: was.value, sd: spreadOf(was, study, films?.[0]) },
    { value: now.value, sd: spreadOf(now, study, films?.[1]) },
    now.measure,
    study,
    films && sharedError(now.measure, films, study),
  );
}
