import { describe, expect, it } from 'vitest';
import { lineAt } from '../../server/features/completion/line-at.ts';
import { openBlocks } from '../../server/features/completion/open-blocks.ts';
import { pathAt } from '../../server/features/completion/picture-paths.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { formatEditsAfterEnter, formatEditsIn } from '../../shared/notation/format-part.ts';
import { parse } from '../../shared/notation/parse.ts';
import type { Edit } from '../../shared/notation/problems.ts';
import { newFilms } from '../../shared/edits/film-notation.ts';

/** What looks for the start of a line, in files whose first line is blank. */

function applied(text: string, edits: readonly Edit[]): string {
  return edits
    .toSorted((a, b) => b.start - a.start)
    .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}

describe.each([
  ['LF', '\n'],
  ['CR LF', '\r\n'],
  ['CR', '\r'],
])('a file that begins with blank lines of %s', (_, end) => {
  const lines = (...written: string[]): string => written.map((line) => line + end).join('');
  const text = lines('', '', 'hoof 1', 'visit   2026-03-04', ' weight   500 kg');

  it('is laid out as a whole by a selection of all', () => {
    expect(format(text)).not.toBe(text);
    expect(applied(text, formatEditsIn(text, [{ start: 0, end: text.length }]))).toBe(format(text));
  });

  it('is laid out in its first line by an empty selection at the start', () => {
    expect(formatEditsIn(text, [{ start: 0, end: 0 }])).toEqual([{ start: 0, end: end.length, text: '' }]);
  });

  it('keeps its first blank line when Enter is pressed in it', () => {
    const after = applied(text, formatEditsAfterEnter(parse(text), end.length));
    expect(after).toBe(text);
    const blanks = `  ${text}`;
    expect(applied(blanks, formatEditsAfterEnter(parse(blanks), 2 + end.length))).toBe(text);
  });

  it('is completed at its very start', () => {
    expect(lineAt(text, 0)).toMatchObject({ start: 0, indentation: 0, items: [] });
    expect(openBlocks(parse(text), 0)).toEqual({ blocks: [], column: 0 });
    expect(pathAt(text, 0)).toBeNull();
    const film = `${end}film LF lateral "a`;
    expect(pathAt(film, film.length)).toMatchObject({
      before: 'a',
      inside: { start: film.length - 1, end: film.length },
    });
  });

  it('loses only the line that a fix takes away', () => {
    const twice = lines('', 'hoof 1', 'hoof 1', 'case "X"');
    const fix = inspect(twice).findings.find(({ code }) => code === 'record/duplicate-word')?.fixes[0];
    expect(applied(twice, fix?.edits ?? [])).toBe(lines('', 'hoof 1', 'case "X"'));
  });

  it('takes a picture behind its last line, which has no end', () => {
    const open = `${end}visit 2026-03-04`;
    const { tree, study } = inspect(open);
    const made = newFilms(tree, study.record, 0, [{ name: 'a.png', path: 'a.png' }], {
      today: '2026-03-04',
      caseName: 'x',
      taken: [],
    });
    expect(made).toMatchObject({ start: end.length, end: open.length });
    expect(made.snippet.startsWith(`visit 2026-03-04${end}`)).toBe(true);
  });
});
