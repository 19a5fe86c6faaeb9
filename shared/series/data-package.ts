import { program } from '../export/structured/uids.ts';
import { notationVersion } from '../record/assemble.ts';
import type { StudySettings } from '../trim/study.ts';
import { columnsFor, tableOf } from './asked-tables.ts';
import type { Extra, SeriesColumn } from './columns.ts';
import type { SeriesCounts } from './series-counts.ts';
import type { TableName } from './tables.ts';

/** A Frictionless data package (Data Package, Tabular Data Resource and Table Schema, version 1) of a series. Plain data. */

/** One file of a table. */
export interface TablePart {
  readonly table: TableName;
  readonly format: 'csv' | 'parquet';
  /** Within the package, with `/`. */
  readonly path: string;
  readonly bytes: number;
  /** SHA-256 in hexadecimal digits. */
  readonly sha256: string;
  /** Of which shard; null where the series was not split. */
  readonly shard: number | null;
}

/** What an export rests on, the same in all its shards. Nothing of it names anybody. */
export interface SeriesOptions {
  readonly asked: readonly Extra[];
  /** As what dates leave. */
  readonly dates: 'days since the first visit' | 'shifted' | 'as written';
  readonly parquet: boolean;
  readonly settings: Pick<StudySettings, 'spread' | 'trim' | 'change'>;
  /** SHA-256 of the measures and usual ranges that the program holds, and of those of one's own. */
  readonly reference: { readonly sha256: string; readonly ownSets: number; readonly ownSha256: string | null };
}

export const packageFile = 'datapackage.json';
export const reportFile = 'report.md';

export interface SeriesPackage {
  readonly options: SeriesOptions;
  /** How many shards there are; null where the series was not split. */
  readonly shards: number | null;
  readonly parts: readonly TablePart[];
  readonly counts: SeriesCounts;
}

export function dataPackage({ options, shards, parts, counts }: SeriesPackage) {
  return {
    profile: 'data-package',
    name: 'hoof-case-series',
    title: 'A series of hoof cases',
    description:
      'Cases under study codes: visits, films, readings, landmarks, measures, plans and trims with what was predicted, what a hand took, and values of the blood. Decision support only; it says nothing of an animal that is not in the case files.',
    resources: parts.map((part) => resource(part, new Set(options.asked))),
    ungula: {
      program: program.name,
      version: program.version,
      notation: notationVersion,
      ...options,
      shards,
      counts,
    },
  };
}

/** Tables of one shard point to tables of the same shard: a case is in one of them only. */
const nameOf = (table: TableName, { format, shard }: Pick<TablePart, 'format' | 'shard'>): string =>
  [table, ...(format === 'parquet' ? ['parquet'] : []), ...(shard === null ? [] : [String(shard)])].join('-');

function resource(part: TablePart, asked: ReadonlySet<Extra>) {
  const { table, format, path, bytes, sha256 } = part;
  const { title, description } = tableOf(table);
  const isCsv = format === 'csv';
  return {
    name: nameOf(table, part),
    path,
    profile: isCsv ? 'tabular-data-resource' : 'data-resource',
    title,
    description,
    format,
    mediatype: isCsv ? 'text/csv' : 'application/vnd.apache.parquet',
    ...(isCsv && { encoding: 'utf-8' }),
    bytes,
    hash: `sha256:${sha256}`,
    schema: tableSchema(table, asked, (there) => nameOf(there, part)),
  };
}

function tableSchema(table: TableName, asked: ReadonlySet<Extra>, resourceOf: (table: TableName) => string) {
  const { primaryKey, foreignKeys } = tableOf(table);
  return {
    fields: columnsFor(table, asked).map(fieldOf),
    missingValues: [''],
    primaryKey,
    ...(foreignKeys.length > 0 && {
      foreignKeys: foreignKeys.map(({ fields, table: there, there: fieldsThere = fields }) => ({
        fields,
        reference: { resource: resourceOf(there as TableName), fields: fieldsThere },
      })),
    }),
  };
}

function fieldOf(column: SeriesColumn) {
  const { name, type, title, description, unit, required, enum: words, pattern, minimum, maximum } = column;
  const constraints = {
    ...(required && { required }),
    ...(words && { enum: words }),
    ...(pattern !== undefined && { pattern }),
    ...(minimum !== undefined && { minimum }),
    ...(maximum !== undefined && { maximum }),
  };
  return {
    name,
    type,
    title,
    description,
    ...(unit !== undefined && { unit }),
    ...(Object.keys(constraints).length > 0 && { constraints }),
  };
}
