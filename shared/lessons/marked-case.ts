import type { FootName } from '../notation/choices.ts';
import type { View } from '../notation/landmarks.ts';
import type { StudiedFilm, StudiedReading, Study } from '../trim/study.ts';
import { isSameFilm, type FilmAcross } from './same-film.ts';
import { markedReading, type MarkedReading } from './marked-reading.ts';

/** A film of the key with what a student has read on it. */
export interface MarkedFilm {
  readonly foot: FootName;
  readonly view: View;
  /** As the key writes it. */
  readonly picture: string;
  /** The student's file has the film. */
  readonly there: boolean;
  /** Null where it has not, or nothing is placed on it. */
  readonly marked: MarkedReading | null;
}

/** Every film of the key that has places, in the order of its text. */
export interface KeyFilm {
  readonly film: StudiedFilm;
  readonly reading: StudiedReading;
}

/** The readings of a key: those by `reader`, or where nobody is named the first of each film that places something. */
export function keyFilms({ films }: Pick<Study, 'films'>, reader: string | null): readonly KeyFilm[] {
  return films.flatMap((film) => {
    const reading = film.readings.find(
      (one) => one.input.landmarks.length > 0 && (reader === null || one.reading.reader === reader),
    );
    return reading ? [{ film, reading }] : [];
  });
}

/**
 * A student's case held against a key. A film is the same where foot, view and the picture's name are: student and teacher keep
 * the picture in folders of their own. Of several readings of it the first
 * that places something counts, and never the key itself, where that stands in the same file.
 */
export function markedCase(
  key: readonly KeyFilm[],
  student: Pick<Study, 'films'>,
  tolerance: number | null,
): readonly MarkedFilm[] {
  return key.map(({ film, reading }): MarkedFilm => {
    const { foot, view } = film.film;
    const same = student.films.filter((one) => isSameFilm(filmAcross(one), filmAcross(film)));
    const read = same
      .flatMap(({ readings }) => readings)
      .find((one) => one.input.landmarks.length > 0 && one !== reading);
    return {
      foot,
      view,
      picture: film.film.path.text,
      there: same.length > 0,
      marked: read ? markedReading(reading, read, tolerance) : null,
    };
  });
}

export const filmAcross = ({ film }: StudiedFilm): FilmAcross => ({
  foot: film.foot,
  view: film.view,
  picture: film.path.text,
});
