import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { brokenCells } from '../../shared/series/broken-cells.ts';
import { caseRows } from '../../shared/series/case-rows.ts';
import { extras, type SeriesTable } from '../../shared/series/columns.ts';
import { tableNames, tables } from '../../shared/series/tables.ts';
import { hidingCase } from '../unit/hidden-words.ts';
import { wordyCases } from '../unit/wordy-cases.ts';
import { byteEdit, randomFrom, tokenEdit } from './random-edits.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const hiding = hidingCase();
const texts = [
  ...readdirSync(examples)
    .filter((name) => name.endsWith('.hoof'))
    .map((name) => readFileSync(join(examples, name), 'utf8')),
  ...wordyCases().map(([, text]) => text),
  hiding.text,
];

/** All that is wrong with the rows of a text: cells that do not fit, keys that stand twice or point to nothing. */
function wrongIn(text: string, asked: readonly (typeof extras)[number][]): string[] {
  const rows = caseRows(inspect(text), {
    code: 'T1',
    sharing: 'open',
    asked: new Set(asked),
    readerCode: (name) => (name === null ? 'R0' : 'R00000000aa'),
    shift: null,
  });
  const keysOf = (table: keyof typeof rows, fields: readonly string[]): string[] =>
    rows[table].map((row) => JSON.stringify(fields.map((field) => (row as Readonly<Record<string, unknown>>)[field])));
  return tableNames.flatMap((table) => {
    const { primaryKey, foreignKeys }: SeriesTable = tables[table];
    const keys = keysOf(table, primaryKey);
    return [
      ...rows[table].flatMap((row) => brokenCells(table, row).map((name) => `${table}.${name} does not fit`)),
      ...(new Set(keys).size < keys.length ? [`a key of ${table} stands twice`] : []),
      ...foreignKeys.flatMap(({ fields, table: there }) => {
        const known = new Set(keysOf(there as keyof typeof rows, fields));
        return keysOf(table, fields).some((key) => !known.has(key)) ? [`${table} points to no row of ${there}`] : [];
      }),
    ];
  });
}

describe('the rows of a case', () => {
  it('fit their tables in every text that raises a finding', () => {
    expect(texts.length).toBeGreaterThan(80);
    for (const text of texts) expect(wrongIn(text, extras)).toEqual([]);
  });

  it('fit them after any edits, and nothing that is hidden in the text is in one where nothing is asked for', () => {
    const seed = fc.integer({ min: 0, max: 2 ** 31 });
    fc.assert(
      fc.property(seed, (from) => {
        const random = randomFrom(from);
        const isHiding = random(3) === 0;
        let text = isHiding ? hiding.text : (texts[random(texts.length)] as string);
        for (let edits = 1 + random(5); edits > 0; edits--)
          text = random(2) === 0 ? tokenEdit(text, random) : byteEdit(text, random);
        expect(wrongIn(text, random(2) === 0 ? extras : [])).toEqual([]);
        if (!isHiding) return;
        const rows = caseRows(inspect(text), {
          code: 'T1',
          sharing: 'series',
          asked: new Set(),
          readerCode: () => 'R0',
          shift: null,
        });
        const said = JSON.stringify(rows).toLowerCase();
        expect(hiding.hidden.filter(({ secret }) => said.includes(secret.toLowerCase()))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});
