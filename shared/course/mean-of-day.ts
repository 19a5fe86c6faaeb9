import type { ErrorOnFilm } from './followed.ts';
import type { FilmLevel } from './rise.ts';

/** A value on one film of a day. */
export interface LevelOnFilm {
  readonly value: number;
  readonly variance: number;
  /** Null where it shares nothing with other films. */
  readonly error: ErrorOnFilm | null;
}

/** The films that a day's mean was made of. */
const filmsOfDay = new WeakMap<FilmLevel, readonly LevelOnFilm[]>();

/** The mean of a day's films, one or more, with what it shares with the means of earlier days. */
export function meanOfDay(day: number, films: readonly LevelOnFilm[]): FilmLevel {
  let value = 0;
  let variance = 0;
  for (const [index, film] of films.entries()) {
    value += film.value;
    variance += film.variance;
    for (const other of films.slice(0, index)) variance += 2 * shared(film, other);
  }
  const count = films.length;
  const level = { day, value: value / count, variance: variance / count ** 2 };
  if (films.every(({ error }) => error === null)) return level;
  // Each pair of days is asked for by every rule that watches the series.
  const known = new Map<FilmLevel, number>();
  const sharedWith = (earlier: FilmLevel): number => {
    let sum = known.get(earlier);
    if (sum === undefined) known.set(earlier, (sum = sharedByDays(films, filmsOfDay.get(earlier) ?? [])));
    return sum;
  };
  const sharing = { ...level, sharedWith };
  filmsOfDay.set(sharing, films);
  return sharing;
}

function sharedByDays(films: readonly LevelOnFilm[], earlier: readonly LevelOnFilm[]): number {
  let sum = 0;
  for (const film of films) for (const other of earlier) sum += shared(film, other);
  return sum === 0 ? 0 : sum / (films.length * earlier.length);
}

const shared = ({ error }: LevelOnFilm, other: LevelOnFilm): number =>
  error && other.error ? error.with(other.error) : 0;
