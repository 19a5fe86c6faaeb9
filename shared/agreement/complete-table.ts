import type { ReadingsTable } from './mean-squares.ts';

/** The part of what was read in which each of some readers has a value of each of some films. */
export interface CompleteTable {
  readonly readers: readonly string[];
  readonly table: ReadingsTable;
}

/** Every choice of so many readers is tried. */
const MOST_READERS = 12;

/**
 * The intraclass correlations of both papers want a value in each cell. Of what was read the largest part without a gap is taken:
 * the readers whose common films give the most readings; of two that give as many the one with more films.
 *
 * @param films of each film a value by the name of the reader
 * @returns null where no two readers have two films in common
 */
export function completeTable(films: readonly ReadonlyMap<string, number>[]): CompleteTable | null {
  const counts = new Map<string, number>();
  for (const film of films) for (const reader of film.keys()) counts.set(reader, (counts.get(reader) ?? 0) + 1);
  const readers = [...counts].sort(([, a], [, b]) => b - a).map(([reader]) => reader);
  let best: { readonly chosen: readonly string[]; readonly common: number } | null = null;
  for (const chosen of choices(readers)) {
    const common = films.filter((film) => chosen.every((reader) => film.has(reader))).length;
    if (common < 2) continue;
    const more = common * chosen.length - (best ? best.common * best.chosen.length : 0);
    if (more > 0 || (more === 0 && common > (best?.common ?? 0))) best = { chosen, common };
  }
  if (!best) return null;
  const { chosen } = best;
  const table = films
    .filter((film) => chosen.every((reader) => film.has(reader)))
    .map((film) => chosen.map((reader) => film.get(reader) as number));
  return { readers: chosen, table };
}

/** Of many readers only those with the most films are tried together. */
function* choices(readers: readonly string[]): Iterable<readonly string[]> {
  const few = readers.slice(0, MOST_READERS);
  for (let choice = 1; choice < 1 << few.length; choice++) {
    const chosen = few.filter((_, place) => choice & (1 << place));
    if (chosen.length > 1) yield chosen;
  }
  for (let count = MOST_READERS + 1; count <= readers.length; count++) yield readers.slice(0, count);
}
