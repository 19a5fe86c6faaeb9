import * as z from 'zod/mini';
import type { CaseRows } from './case-rows.ts';
import { stays, type Stays } from './gate.ts';
import { tableNames, type TableName } from './tables.ts';
import { textKinds, type TextKind } from './texts.ts';

/** How much of a series left, and how much did not. Only numbers: it stands in the package. */
export const seriesCountsSchema = z.object({
  /** Case files that were looked at. */
  files: z.int(),
  cases: z.int(),
  /** Files that could not be read. */
  notRead: z.int(),
  stayed: z.partialRecord(z.enum(stays), z.int()),
  rows: z.partialRecord(z.enum(tableNames as [TableName, ...TableName[]]), z.int()),
  /** What was left out of the cases that left, and of how many of them. */
  removed: z.partialRecord(z.enum(textKinds), z.object({ count: z.int(), cases: z.int() })),
});

export type SeriesCounts = z.infer<typeof seriesCountsSchema>;

/** Counts while a series is written. */
export class SeriesTally {
  files = 0;
  cases = 0;
  notRead = 0;
  readonly #stayed = new Map<Stays, number>();
  readonly #rows = new Map<TableName, number>();
  readonly #removed = new Map<TextKind, { count: number; cases: number }>();

  stayed(why: Stays): void {
    this.#stayed.set(why, (this.#stayed.get(why) ?? 0) + 1);
  }

  left(rows: CaseRows, written: readonly TableName[]): void {
    this.cases++;
    for (const table of written) this.#rows.set(table, (this.#rows.get(table) ?? 0) + rows[table].length);
    for (const { kind, count } of rows.removed as readonly { kind: TextKind; count: number }[]) {
      const so = this.#removed.get(kind) ?? { count: 0, cases: 0 };
      this.#removed.set(kind, { count: so.count + count, cases: so.cases + 1 });
    }
  }

  get counts(): SeriesCounts {
    const { files, cases, notRead } = this;
    return {
      files,
      cases,
      notRead,
      stayed: inOrder(stays, this.#stayed),
      rows: inOrder(tableNames, this.#rows),
      removed: inOrder(textKinds, this.#removed),
    };
  }
}

/** All shards together. */
export function addedCounts(all: readonly SeriesCounts[]): SeriesCounts {
  const sum = (of: (one: SeriesCounts) => number): number => all.reduce((so, one) => so + of(one), 0);
  const numbers = <K extends string>(
    keys: readonly K[],
    of: (one: SeriesCounts) => Readonly<Partial<Record<K, number>>>,
  ) => inOrder(keys, new Map(keys.map((key) => [key, sum((one) => of(one)[key] ?? 0)])));
  return {
    files: sum(({ files }) => files),
    cases: sum(({ cases }) => cases),
    notRead: sum(({ notRead }) => notRead),
    stayed: numbers(stays, ({ stayed }) => stayed),
    rows: numbers(tableNames, ({ rows }) => rows),
    removed: inOrder(
      textKinds,
      new Map(
        textKinds.map((kind) => [
          kind,
          {
            count: sum(({ removed }) => removed[kind]?.count ?? 0),
            cases: sum(({ removed }) => removed[kind]?.cases ?? 0),
          },
        ]),
      ),
    ),
  };
}

function inOrder<K extends string, V>(keys: readonly K[], counts: ReadonlyMap<K, V>): Partial<Record<K, V>> {
  const all: Partial<Record<K, V>> = {};
  for (const key of keys) {
    const count = counts.get(key);
    if (count !== undefined && (typeof count !== 'object' || (count as { count?: number }).count !== 0))
      all[key] = count;
  }
  return all;
}
