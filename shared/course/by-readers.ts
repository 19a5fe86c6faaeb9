import type { StudiedFilm } from '../trim/study.ts';
import type { Alarm } from './alarm.ts';
import { readersOf, type Reader } from './readers.ts';

/** What is told of a foot, and by whose placings. */
export interface ByReader<T> {
  readonly told: T;
  /** Null where no film has several readings. */
  readonly reader: string | null;
  /** Readers of the same films by whose placings nothing is told. */
  readonly against: readonly string[];
}

/**
 * What the films of a foot tell by each of their readers: what the main one has told that has ended, and of what is open the
 * surest, with those who do not see it. A reader who has read no film since it was first told says nothing against it.
 */
export function* byReaders<T extends { readonly alarm: Alarm }>(
  films: readonly StudiedFilm[],
  tell: (reader: Reader) => readonly T[],
): Iterable<ByReader<T>> {
  const all = readersOf(films).map((reader) => {
    const told = tell(reader);
    return { reader, told, open: told.find(({ alarm }) => alarm.ended === null) ?? null };
  });
  const [main] = all;
  for (const told of main?.told ?? [])
    if (told.alarm.ended !== null) yield { told, reader: main?.reader.name ?? null, against: [] };
  const open = all.filter((one) => one.open !== null);
  const surest = open.find((one) => one.open?.alarm.certainty === 'clear') ?? open[0];
  if (!surest?.open) return;
  const { raised } = surest.open.alarm;
  const against = all.filter(
    ({ open: theirs, reader }) =>
      theirs === null && films.some((film) => film.day !== null && film.day >= raised && reader.reads(film)),
  );
  yield {
    told: surest.open,
    reader: surest.reader.name,
    against: against.flatMap(({ reader: { name } }) => name ?? []),
  };
}
