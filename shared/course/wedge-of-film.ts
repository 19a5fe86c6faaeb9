import { staysOn } from '../record/wearing.ts';
import type { StudiedFilm } from '../trim/study.ts';
import { valuesOfFilm } from './value-of-film.ts';

/** Degrees; less of a wedge is not said. */
export const leastWedge = 0.05;

/** Degrees by which what a foot wears raises its heel on a film, 0 where it is bare; null where it is shod and nobody can tell. */
export function wedgeOfFilm(film: StudiedFilm): number | null {
  const wedge = valuesOfFilm(film)?.get('shoe-wedge')?.value;
  if (wedge !== undefined) return wedge;
  return film.worn !== null && staysOn(film.worn) ? null : 0;
}
