import type { MeasureName } from '../measures/names.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';
import { isFollowing } from './following.ts';
import { ENOUGH_REPEATS, type RepeatSpread } from './repeat-reads.ts';
import { readingOfFilm, valuesOfFilm } from './value-of-film.ts';
import { wedgeOfFilm } from './wedge-of-film.ts';

/**
 * How far films of one foot lie apart that were taken on one day, the foot put down anew: all that a film's error holds,
 * placing, beam and stance. Pooled within days, in the measure's unit. Null where a case has fewer than ten such films
 * beyond the first of each day, or where all are the same to the last figure. A film that was followed from another is no
 * repeat: it has the other's placing in it.
 */
export function repeatFilms({ films }: Pick<Study, 'films'>, measure: MeasureName): RepeatSpread | null {
  const days = new Map<string, number[]>();
  for (const film of films) {
    const reading = readingOfFilm(film);
    if (film.film.kind !== 'film' || film.day === null || (reading && isFollowing(reading.reading))) continue;
    const value = withoutShoe(film, measure);
    if (value === null) continue;
    const day = `${film.film.foot} ${film.film.view} ${film.day}`;
    const same = days.get(day);
    if (same) same.push(value);
    else days.set(day, [value]);
  }
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const values of days.values()) {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    squares += values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    degreesOfFreedom += values.length - 1;
  }
  if (degreesOfFreedom < ENOUGH_REPEATS || squares === 0) return null;
  return { sd: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}

/** A foot that is filmed before and after it was shod is the same foot: an angle to the ground is taken without the wedge. */
function withoutShoe(film: StudiedFilm, measure: MeasureName): number | null {
  const value = valuesOfFilm(film)?.get(measure);
  if (value?.measure.plane !== 'ground') return value?.value ?? null;
  const wedge = wedgeOfFilm(film);
  return wedge === null ? null : value.value - wedge;
}

/** Where no foot has two films of one day nothing can be repeated, and nothing needs to be measured for it. */
export function hasRepeatFilms(films: readonly StudiedFilm[]): boolean {
  let repeats = 0;
  const seen = new Set<string>();
  for (const { film, day } of films) {
    if (film.kind !== 'film' || day === null) continue;
    const key = `${film.foot} ${film.view} ${day}`;
    if (seen.has(key)) repeats += 1;
    seen.add(key);
  }
  return repeats >= ENOUGH_REPEATS;
}
