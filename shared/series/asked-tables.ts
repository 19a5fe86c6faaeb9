import type { Extra, SeriesColumn, SeriesTable } from './columns.ts';
import { tableNames, tables, type TableName } from './tables.ts';

type AskedExtras = ReadonlySet<Extra>;

const isThere = (asked: AskedExtras, { asked: by }: { readonly asked?: readonly Extra[] }): boolean =>
  by === undefined || by.some((one) => asked.has(one));

export const tableOf = (name: TableName): SeriesTable => tables[name];

/** The tables that a package has, by what was asked for. */
export const tablesFor = (asked: AskedExtras): readonly TableName[] =>
  tableNames.filter((name) => isThere(asked, tableOf(name)));

/** The columns that a table then has. */
export const columnsFor = (name: TableName, asked: AskedExtras): readonly SeriesColumn[] =>
  tableOf(name).columns.filter((column) => isThere(asked, column));
