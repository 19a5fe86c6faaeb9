import type { SeriesColumn } from './columns.ts';
import { tables, type TableName } from './tables.ts';

/** What may stand in a cell. */
export type SeriesCell = string | number | boolean | null;

const patterns = new Map<string, RegExp>();

/** Whether a value is one that the column may hold. */
export function fits(value: SeriesCell, column: SeriesColumn): boolean {
  const { type, required, enum: words, pattern, minimum, maximum } = column;
  if (value === null) return required !== true;
  switch (type) {
    case 'boolean':
      return typeof value === 'boolean';
    case 'integer':
    case 'number':
      return (
        typeof value === 'number' &&
        Number.isFinite(value) &&
        (type === 'number' || Number.isInteger(value)) &&
        value >= (minimum ?? -Infinity) &&
        value <= (maximum ?? Infinity)
      );
    case 'date':
      return typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(value);
    case 'string':
      return (
        typeof value === 'string' &&
        value !== '' &&
        (words === undefined || words.includes(value)) &&
        (pattern === undefined || compiled(pattern).test(value))
      );
  }
}

/** The names of the columns whose cell in a row of the table holds what it may not; empty where all is well. */
export function brokenCells(table: TableName, row: Readonly<Record<string, SeriesCell>>): string[] {
  const columns: readonly SeriesColumn[] = tables[table].columns;
  return columns.filter((column) => !fits(row[column.name] ?? null, column)).map(({ name }) => name);
}

function compiled(pattern: string): RegExp {
  let made = patterns.get(pattern);
  if (!made) patterns.set(pattern, (made = new RegExp(pattern, 'u')));
  return made;
}
