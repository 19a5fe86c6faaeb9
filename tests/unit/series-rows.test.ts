import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { measuredRows } from '../../shared/export/measured.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { brokenCells } from '../../shared/series/broken-cells.ts';
import { caseRows, type CaseRows } from '../../shared/series/case-rows.ts';
import { extras, type Extra, type SeriesTable } from '../../shared/series/columns.ts';
import { tableNames, tables } from '../../shared/series/tables.ts';
import type { SeriesView } from '../../shared/series/series-view.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const texts = readdirSync(examples)
  .filter((name) => name.endsWith('.hoof'))
  .map((name): [string, string] => [name, readFileSync(join(examples, name), 'utf8')]);

const view = (asked: readonly Extra[] = [], sharing: SeriesView['sharing'] = 'series'): SeriesView => ({
  code: 'T1',
  sharing,
  asked: new Set(asked),
  readerCode: (name) => (name === null ? 'R0' : 'R00000000aa'),
  shift: null,
});

const rowsOf = (text: string, how = view()): CaseRows => caseRows(inspect(text), how);
const all: readonly [string, SeriesTable][] = Object.entries(tables);

describe('the tables of a series', () => {
  it('hold nothing that is not known beforehand, but for what is asked for', () => {
    const open = all.flatMap(([table, { columns, asked }]) =>
      asked
        ? []
        : columns
            .filter((one) => one.type === 'string' && !one.enum && !one.pattern && !one.asked)
            .map(({ name }) => `${table}.${name}`),
    );
    expect(open).toEqual([]);
    expect(
      all.flatMap(([, { columns }]) => columns.filter(({ type }) => type === 'date').map(({ asked }) => asked)),
    ).toEqual([['dates'], ['dates']]);
  });

  it('begin with the case, have keys that are columns, and point to keys that are there', () => {
    for (const [name, { columns, primaryKey, foreignKeys }] of all) {
      const names = columns.map((column) => column.name);
      expect([name, names[0]]).toEqual([name, 'case']);
      expect(new Set(names).size).toBe(names.length);
      expect(names).toEqual(expect.arrayContaining([...primaryKey]));
      for (const { fields, table, there } of foreignKeys)
        expect((tables as Readonly<Record<string, SeriesTable>>)[table]?.primaryKey).toEqual(there ?? fields);
      for (const key of primaryKey) expect(columns.find((column) => column.name === key)?.required).toBe(true);
    }
  });
});

describe('the rows of each example', () => {
  it.each(texts)('%s fit their columns and their keys', (_, text) => {
    const rows = rowsOf(text, view(extras, 'open'));
    for (const table of tableNames) {
      const { primaryKey, foreignKeys }: SeriesTable = tables[table];
      const key = (row: object, fields: readonly string[]): string =>
        JSON.stringify(fields.map((field) => (row as Record<string, unknown>)[field]));
      const keys = rows[table].map((row) => key(row, primaryKey));
      expect([table, rows[table].flatMap((row) => brokenCells(table, row))]).toEqual([table, []]);
      expect(new Set(keys).size).toBe(keys.length);
      for (const { fields, table: there } of foreignKeys) {
        const known = new Set((rows[there as keyof CaseRows] as readonly object[]).map((row) => key(row, fields)));
        expect(rows[table].filter((row) => !known.has(key(row, fields)))).toEqual([]);
      }
      for (const row of rows[table])
        expect(Object.keys(row).sort()).toEqual(tables[table].columns.map(({ name }) => name).sort());
    }
  });

  it.each(texts)('%s have the values of the table of measures', (name, text) => {
    const told = measuredRows(name, inspect(text).study);
    const rows = rowsOf(text);
    const pictured = told
      .filter(({ source }) => source !== 'hand')
      .map(({ measure, value, unit, sd }) => ({ measure, value, unit, sd }));
    const taped = told
      .filter(({ source }) => source === 'hand')
      .map(({ measure, value, unit, sd }) => ({ measure, value, unit, sd }));
    expect(rows.measures.map(({ measure, value, unit, sd }) => ({ measure, value, unit, sd }))).toEqual(pictured);
    expect(rows.tape.map(({ measure, value, unit, sd }) => ({ measure, value, unit, sd }))).toEqual(taped);
    expect(rows.measures.length + rows.tape.length).toBe(told.length);
  });
});
