import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { describeCode } from '../../server/features/describe/code.ts';
import { code, notation, paragraphs, plain, table } from '../../server/features/describe/markdown.ts';
import { describeMeasure } from '../../server/features/describe/measure.ts';
import { plainText } from '../../server/features/describe/plain-text.ts';
import { describeRow } from '../../server/features/describe/word.ts';
import { codes } from '../../shared/findings/catalogue.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { measures } from '../../shared/measures/registry.ts';
import { statements } from '../../shared/notation/vocabulary.ts';

describe('a description without Markdown', () => {
  it('keeps the words and loses the signs', () => {
    expect(plainText(paragraphs('**palmar-angle** · so', `see ${code('a_b')}`, '[More](file:///x.md)'))).toBe(
      'palmar-angle · so\n\nsee a_b\n\nMore: file:///x.md',
    );
    expect(plainText(notation('film FOOT  VIEW', '  *not* `this`'))).toBe('film FOOT  VIEW\n  *not* `this`');
    expect(plainText('one\n\n---\n\ntwo')).toBe('one\n\ntwo');
  });

  it('sets a table in columns', () => {
    const rows = [
      ['palmar angle', '5.0°', ''],
      [plain('a|b'), '12.25 mm', 'low'],
    ];
    expect(plainText(`before\n\n${table(['measure', 'value', ''], rows)}\n\nafter`)).toBe(
      'before\n\nmeasure       value\npalmar angle  5.0°\na|b           12.25 mm  low\n\nafter',
    );
  });

  it('gives a text of the user’s own back as it was', () => {
    for (const own of ['**x**', '`a` [b](c)', '1 * 2 * 3', '<b> & ~c~', String.raw`back\slash`, '| a | b |', '```'])
      expect(plainText(plain(own))).toBe(own);
  });

  it('leaves no sign of Markdown in any word, measure or code', () => {
    const { study } = inspect('hoof 1\n');
    const all = [
      ...statements.map(describeRow),
      ...measures.map((measure) => describeMeasure(measure, { study, film: undefined, foot: 'LF' })),
      ...codes.map((row) => describeCode(row, 'file:///docs/')),
    ];
    expect(all.length).toBeGreaterThan(100);
    for (const one of all) expect(plainText(one)).not.toMatch(/\*\*|```|`|\]\(|\\[\\`*_[\]<>|~&]/);
  });
});

it('every description is made with what the plain form knows', () => {
  const folder = new URL('../../server/features/describe/', import.meta.url);
  const files = readdirSync(folder);
  expect(files.length).toBeGreaterThan(3);
  for (const name of files) {
    const source = readFileSync(new URL(name, folder), 'utf8');
    // Headings, numbered lists, pictures, quotes and raw HTML have no plain form.
    expect(source, name).not.toMatch(/['"`](?:#{1,6} |\d+\. |!\[|> |<[a-z]+>)/);
  }
});
