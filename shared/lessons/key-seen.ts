import type { Refusal } from '../picture/picture-files.ts';
import type { CaseRecord } from '../record/schema.ts';
import type { FilmAcross } from './same-film.ts';

/** A film of a key, with the readers who have placed something on it; null for the unnamed one. */
export interface KeyFilmSeen extends FilmAcross {
  readonly readers: readonly (string | null)[];
}

/** What was found at the file that a case names as its key: its films in the order of its text, or why it is not read. */
export type KeySeen = { readonly films: readonly KeyFilmSeen[] } | { readonly refused: Refusal };

/** Tells what the file of a key holds, by its path as written; null where nobody has looked. */
export type KeyFiles = (path: string) => KeySeen | null;

export function filmsSeen({ visits }: Pick<CaseRecord, 'visits'>): KeyFilmSeen[] {
  return visits.flatMap(({ is }) =>
    is.films.map(({ foot, view, path, readings }) => ({
      foot,
      view,
      picture: path.text,
      readers: readings.filter(({ placings }) => placings.length > 0).map(({ reader }) => reader),
    })),
  );
}
