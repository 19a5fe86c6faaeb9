import type { FootName } from '../notation/choices.ts';
import type { View } from '../notation/landmarks.ts';

/** Which film is looked at: chosen by server and page alike, so that the right one comes with the first answer. */

/** What a film is called, and where it stands in the text. */
export interface FilmName {
  /** `Left fore, lateral film, 2026-03-03`. */
  readonly title: string;
  readonly foot: FootName;
  readonly view: View;
  readonly kind: 'film' | 'photo';
  readonly date: string | null;
  readonly reader: string | null;
  /** First and last line of the film's block, from 0. */
  readonly line: number;
  readonly endLine: number;
  /** As written, relative to the case file. */
  readonly picture: string;
}

/** A film in short: enough to name it and to choose it. */
export interface ListedFilm extends FilmName {
  /** Of its landmarks, where several persons have read the film: only then do they decide anything. */
  readonly lines: readonly number[];
  /** First and last line of each plan and trim that is told of on it. */
  readonly cuts: readonly { readonly line: number; readonly endLine: number }[];
}

/** What a person looks at. */
export interface FilmLook {
  /** Key of the film that was chosen; null where the cursor decides. */
  readonly film: string | null;
  /** Line of the cursor, from 0; null where it is in no case file. */
  readonly line: number | null;
  /** The cursor has come to its line since the film was chosen, and leads to the film there. */
  readonly moved: boolean;
  /** Key of the film that is laid over; null for none. */
  readonly over: string | null;
  /** Keys of the films of a lesson whose key is shown; absent for none. */
  readonly shown?: readonly string[];
}

/** What a film is known by while its text changes. */
export function filmKey({
  kind,
  foot,
  view,
  date,
  picture,
  reader,
}: Omit<FilmName, 'title' | 'line' | 'endLine'>): string {
  return [kind, foot, view, date, picture, reader].map((part) => part ?? '').join('\n');
}

/** The film that a line of the text belongs to: the block it is in, or the last film, plan or trim above it. */
export function filmAt(films: readonly ListedFilm[], line: number): ListedFilm | null {
  const own = films.filter((film) => film.line <= line && line <= film.endLine);
  if (own.length > 0) return nearestAbove(own, line, ({ lines }) => lines) ?? own[0] ?? null;
  return nearestAbove(films, line, (film) => [film.line, ...film.cuts.map((cut) => cut.line)]);
}

function nearestAbove(
  films: readonly ListedFilm[],
  line: number,
  linesOf: (film: ListedFilm) => readonly number[],
): ListedFilm | null {
  let nearest: ListedFilm | null = null;
  let at = -1;
  for (const film of films)
    for (const one of linesOf(film))
      if (one <= line && one > at) {
        nearest = film;
        at = one;
      }
  return nearest;
}

/** The film that the cursor has come to, else the chosen one; where that is gone, the cursor decides, then the newest lateral film, then the newest. */
export function filmToShow(
  films: readonly ListedFilm[],
  { film, line, moved }: Omit<FilmLook, 'over'>,
): ListedFilm | null {
  const atCursor = line === null ? null : filmAt(films, line);
  return (moved ? atCursor : null) ?? filmOf(films, film) ?? atCursor ?? newest(films);
}

/** By its key. */
export function filmOf(films: readonly ListedFilm[], key: string | null): ListedFilm | null {
  return key === null ? null : (films.find((one) => filmKey(one) === key) ?? null);
}

/** Of several of one day the first in the text, as its readers stand there. */
function newest(films: readonly ListedFilm[]): ListedFilm | null {
  const lateral = films.filter(({ view }) => view === 'lateral');
  const among = lateral.length > 0 ? lateral : films;
  return among.reduce<ListedFilm | null>(
    (best, film) => (best === null || (film.date ?? '') > (best.date ?? '') ? film : best),
    null,
  );
}

/** The landmark that is placed on this line. */
export function landmarkOn(
  { placed }: { readonly placed: Readonly<Record<string, { readonly line: number }>> },
  line: number | null,
): string | null {
  return Object.entries(placed).find(([, place]) => place.line === line)?.[0] ?? null;
}
