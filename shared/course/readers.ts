import { t } from '../language/words.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';

/**
 * Whose reading of each film is compared over the films of a foot. Two people place the same point differently, and that is
 * no change of the foot: where both films have a reading of one person, those two are compared.
 */
export interface Reader {
  /** Null where no film has several readings, so that nobody has to be chosen. */
  readonly name: string | null;
  /** This person's reading; on a film that the main reader has not read the first one takes its place. */
  reads(film: StudiedFilm): StudiedReading | undefined;
}

const onlyOne: Reader = { name: null, reads: ({ readings }) => readings.find(({ taking }) => taking.frame) };

/**
 * First the main reader, who has read the films of most days (of several, the first on the newest film). Then each other who has
 * read films of two days or more, with these films alone.
 */
export function readersOf(films: readonly StudiedFilm[]): readonly [Reader, ...Reader[]] {
  if (films.every(({ readings }) => readings.length < 2)) return [onlyOne];
  const daysOf = new Map<string, Set<number>>();
  let several = false;
  // From the newest on, as a map keeps the order in which its keys came.
  for (const { readings, day } of films.toReversed()) {
    const usable = day === null ? [] : readings.filter(({ taking }) => taking.frame);
    several ||= usable.length > 1;
    for (const one of usable) {
      const days = daysOf.get(nameOf(one)) ?? new Set();
      daysOf.set(nameOf(one), days.add(day as number));
    }
  }
  const [main, ...others] = [...daysOf].sort(([, a], [, b]) => b.size - a.size).map(([name]) => name);
  if (!several || main === undefined) return [onlyOne];
  const by =
    (name: string) =>
    ({ readings }: StudiedFilm): StudiedReading | undefined =>
      readings.find((one) => nameOf(one) === name && one.taking.frame);
  return [
    { name: main, reads: (film) => by(main)(film) ?? onlyOne.reads(film) },
    ...others.filter((name) => (daysOf.get(name)?.size ?? 0) > 1).map((name) => ({ name, reads: by(name) })),
  ];
}

const nameOf = ({ reading }: StudiedReading): string => reading.reader ?? t('the first reader');
