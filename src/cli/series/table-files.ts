import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Papa from 'papaparse';
import { program } from '../../../shared/export/structured/uids.ts';
import { columnsFor, tablesFor } from '../../../shared/series/asked-tables.ts';
import { brokenCells, type SeriesCell } from '../../../shared/series/broken-cells.ts';
import type { CaseRows } from '../../../shared/series/case-rows.ts';
import type { Extra, SeriesColumn } from '../../../shared/series/columns.ts';
import type { TablePart } from '../../../shared/series/data-package.ts';
import type { TableName } from '../../../shared/series/tables.ts';
import { DigestedFile } from './digested-file.ts';
import type { ParquetTable } from './parquet-table.ts';

interface OpenTable {
  readonly table: TableName;
  readonly columns: readonly SeriesColumn[];
  readonly files: readonly { readonly part: Pick<TablePart, 'format' | 'path'>; readonly file: DigestedFile }[];
  readonly csv: DigestedFile;
  readonly parquet: ParquetTable | null;
  /** Rows that wait to be written together. */
  waiting: SeriesCell[][];
}

/** Rows that a table holds back at most before it writes them. */
const mostWaiting = 512;

/** The files of all tables of a package, or of one shard of it, to which cases are added one by one. */
export class TableFiles {
  readonly #tables: readonly OpenTable[];
  readonly #shard: number | null;

  private constructor(tables: readonly OpenTable[], shard: number | null) {
    this.#tables = tables;
    this.#shard = shard;
  }

  /** @param folder where they are made; it is there */
  static async open(
    folder: string,
    asked: ReadonlySet<Extra>,
    { shard, parquet }: { readonly shard: number | null; readonly parquet: boolean },
  ): Promise<TableFiles> {
    const writer = parquet ? await import('./parquet-table.ts') : null;
    const tables = tablesFor(asked).map((table): OpenTable => {
      const columns = columnsFor(table, asked);
      const made = (format: TablePart['format']) => {
        const path = partPath(table, format, shard);
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        return { part: { format, path }, file: new DigestedFile(join(folder, path)) };
      };
      const csv = made('csv');
      const packed = writer ? made('parquet') : null;
      csv.file.write(Buffer.from(csvLines([columns.map(({ name }) => name)])));
      return {
        table,
        columns,
        files: packed ? [csv, packed] : [csv],
        csv: csv.file,
        parquet:
          writer && packed
            ? new writer.ParquetTable(columns, `${program.name} ${program.version}`, (bytes) =>
                packed.file.write(bytes),
              )
            : null,
        waiting: [],
      };
    });
    return new TableFiles(tables, shard);
  }

  get names(): readonly TableName[] {
    return this.#tables.map(({ table }) => table);
  }

  /** @throws where a cell holds what its column may not; then nothing of the case is written */
  add(all: CaseRows): void {
    for (const { table } of this.#tables)
      for (const row of all[table] as readonly Readonly<Record<string, SeriesCell>>[]) {
        // A text in a column that has none would be one that nobody let out.
        const broken = brokenCells(table, row);
        if (broken.length > 0) throw new Error(`${table}: ${broken.join(', ')} hold what they may not`);
      }
    for (const open of this.#tables) {
      const rows: readonly Readonly<Record<string, SeriesCell>>[] = all[open.table];
      for (const row of rows) open.waiting.push(open.columns.map(({ name }) => row[name] ?? null));
      open.parquet?.add(rows);
      if (open.waiting.length >= mostWaiting) flush(open);
    }
  }

  close(): readonly TablePart[] {
    return this.#tables.flatMap((open) => {
      flush(open);
      open.parquet?.finish();
      return open.files.map(({ part, file }) => ({ table: open.table, ...part, ...file.close(), shard: this.#shard }));
    });
  }

  abandon(): void {
    for (const { files } of this.#tables) for (const { file } of files) file.abandon();
  }
}

function flush(open: OpenTable): void {
  if (open.waiting.length > 0) open.csv.write(Buffer.from(csvLines(open.waiting)));
  open.waiting = [];
}

/** Where a table stands in a package: parts of shards in folders that tell which, as DuckDB, Spark and others read them. */
export const partPath = (table: TableName, format: TablePart['format'], shard: number | null): string =>
  shard === null ? `${table}.${format}` : `${table}/shard=${shard}/part-0.${format}`;

/**
 * RFC 4180. Without the apostrophes of `shared/export/csv.ts`: those guard a person who opens a table in a spreadsheet, and here
 * programs read, to which an apostrophe is a part of the text.
 */
const csvLines = (rows: readonly (readonly SeriesCell[])[]): string =>
  `${Papa.unparse(rows as unknown[][], { newline: '\r\n', header: false, skipEmptyLines: false })}\r\n`;
