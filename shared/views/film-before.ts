import { lineOf } from '../geometry/foot-axes.ts';
import { plainScale, type FootInput } from '../geometry/foot-input.ts';
import { readingOfFilm } from '../course/value-of-film.ts';
import type { StudiedFilm, StudiedReading, Study } from '../trim/study.ts';

/** The film before another one of the same foot, from which places on that one may be proposed. */
export interface FilmBefore {
  /** The day it was taken, as the text writes it. */
  readonly date: string;
  /** As written, relative to the case file. */
  readonly picture: string;
  readonly input: FootInput;
}

/**
 * The last lateral film of the foot from an earlier day on which the pedal bone's two ends, the ground and a scale are known; null where
 * there is none. Never one of the same day: films repeated on one day tell how well a film is measured, and one that was
 * placed by the other would not. What a named reader reads follows that reader alone, for the same cause.
 */
export function filmBefore(
  { films }: Pick<Study, 'films'>,
  of: StudiedFilm,
  { reading: { reader } }: StudiedReading,
): FilmBefore | null {
  const { day, film } = of;
  if (day === null || film.view !== 'lateral' || film.kind !== 'film') return null;
  let last: { readonly day: number; readonly before: FilmBefore } | null = null;
  for (const one of films) {
    if (one.day === null || one.day >= day || (last && one.day < last.day)) continue;
    if (one.film.foot !== film.foot || one.film.view !== 'lateral' || one.film.kind !== 'film') continue;
    const date = one.film.taken ?? one.visit.is.date;
    const input = followedBy(one, reader);
    if (!input || date === null) continue;
    last = { day: one.day, before: { date, picture: one.film.path.text, input } };
  }
  return last?.before ?? null;
}

/** The unnamed reader goes on from what has no name too, as the course takes it, and else from what the film stands for. */
function followedBy(film: StudiedFilm, reader: string | null): FootInput | null {
  const own = film.readings.find(({ reading }) => reading.reader === reader)?.input;
  if (own && canBeFollowed(own)) return own;
  const other = reader === null ? readingOfFilm(film)?.input : undefined;
  return other && canBeFollowed(other) ? other : null;
}

function canBeFollowed(input: FootInput): boolean {
  const isPlaced = (name: string): boolean => input.landmarks.some((one) => one.name === name);
  return lineOf(input) !== null && isPlaced('p3.tip') && isPlaced('p3.wing') && plainScale(input) !== null;
}
