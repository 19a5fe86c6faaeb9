import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { csv } from '../../shared/export/csv.ts';

const separators = [',', ';', '\t'] as const;

/**
 * The cells that two readers, which nobody here wrote, find. A spreadsheet takes what it is given: quotes within a cell, rows of
 * another length.
 */
function cells(text: string, separator: string): string[] {
  const papa = Papa.parse<string[]>(text, { delimiter: separator }).data;
  const other: string[][] = parse(text, {
    delimiter: separator,
    relax_quotes: true,
    relax_column_count: true,
    skip_empty_lines: false,
    ...(separator === ',' ? {} : { quote: null }),
  });
  return [...papa, ...other].flat();
}

const computes = /^[\s"]*[=+\-@＝＋－＠]/;
const isNumber = (cell: string): boolean => /^-?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/.test(cell);
const computed = (text: string, separator: string): string[] =>
  cells(text, separator).filter((cell) => computes.test(cell) && !isNumber(cell));

describe('no cell of a table is computed, whatever separates them for the reader', () => {
  it.each([
    ';=cmd',
    'a;=1+1',
    'a; =1+1',
    'a;"=1+1"',
    'a";"=1+1',
    'a\t=1+1',
    'a\n=1+1',
    'a\r\n=1+1',
    'a;＝1+1',
    'a;@SUM(A1)',
    'a;-1+1;+2',
    '=1+1;=2',
    'a,=1+1',
  ])('%j', (text) => {
    for (const separator of separators)
      for (const rows of [[{ a: text, b: 1 }], [{ a: 'x', b: text }], [{ a: text, b: text }]])
        expect(computed(csv(['a', 'b'], rows), separator)).toEqual([]);
  });

  it('at random', () => {
    const text = fc.string({
      unit: fc.constantFrom(
        '=',
        '+',
        '-',
        '@',
        '＝',
        '\t',
        '\r',
        '\n',
        '\v',
        '\u00a0',
        ' ',
        '"',
        "'",
        ',',
        ';',
        'a',
        '1',
      ),
    });
    const row = fc.record({ file: text, value: fc.double({ noNaN: true, noDefaultInfinity: true }), last: text });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 3 }), fc.constantFrom(...separators), (rows, separator) => {
        const written = csv(
          ['file', 'value', 'last'],
          rows.map(({ file, ...more }) => ({ ...more, file: `a${file}` })),
        );
        expect(computed(written, separator)).toEqual([]);
      }),
      { numRuns: 2000 },
    );
  });
});

it('a table reads back as it was written, but for what was made harmless', () => {
  const rows = [
    { text: 'Juniper', number: -1.5 },
    { text: 'say "whoa", then; wait\nand\tgo', number: 2e-7 },
    { text: 'a;b', number: 3 },
  ];
  const written = csv(['text', 'number'], rows);
  const expected = [['text', 'number'], ...rows.map(({ text, number }) => [text, String(number)])];
  expect(Papa.parse<string[]>(written, { delimiter: ',', skipEmptyLines: true }).data).toEqual(expected);
  expect(parse(written)).toEqual(expected);
});

it.each(['a;b', 'a\tb', 'a,b', 'a"b', 'a\nb'])('%j stands in quotes', (text) => {
  expect(csv(['x'], [{ x: text }])).toBe(`x\r\n"${text.replace('"', '""')}"\r\n`);
});
