import { describe, expect, it } from 'vitest';
import { formatEditsAfterEnter } from '../../shared/notation/format-part.ts';
import { parse } from '../../shared/notation/parse.ts';

/** The text after Enter was pressed at the bar, the cursor where it is then; an editor may have indented already. */
function entered(marked: string, indented = ''): string {
  const at = marked.indexOf('¦');
  const end = marked.includes('\r\n') ? '\r\n' : '\n';
  const text = `${marked.slice(0, at)}${end}${indented}${marked.slice(at + 1)}`;
  let cursor = at + end.length + indented.length;
  let result = text;
  for (const { start, end: to, text: put } of formatEditsAfterEnter(parse(text), at + end.length).toReversed()) {
    result = result.slice(0, start) + put + result.slice(to);
    if (to <= cursor) cursor += put.length - (to - start);
  }
  return `${result.slice(0, cursor)}¦${result.slice(cursor)}`;
}

const top = 'hoof 1\n\ncase "A"\n\n';

describe('Enter', () => {
  it.each([
    ['after a header goes one deeper', `${top}visit 2026-03-04¦`, `${top}visit 2026-03-04\n  ¦`],
    ['after the version line does not', 'hoof 1¦', 'hoof 1\n¦'],
    [
      'beside a statement',
      `${top}visit 2026-03-04\nweight 512   kg¦\n`,
      `${top}visit 2026-03-04\n  weight     512 kg\n  ¦\n`,
    ],
    [
      'after the header of a film',
      `${top}visit 2026-03-04\n  film LF lateral "a.png"¦`,
      `${top}visit 2026-03-04\n  film LF lateral "a.png"\n    ¦`,
    ],
    [
      'beside a landmark',
      `${top}visit 2026-03-04\n  film LF lateral "a.png"\n    p3.tip @ 1,2¦`,
      `${top}visit 2026-03-04\n  film LF lateral "a.png"\n    p3.tip            @    1,    2\n    ¦`,
    ],
    [
      'leaves a broken line as it is',
      `${top}visit 2026-03-04\n   weight 512¦`,
      `${top}visit 2026-03-04\n   weight 512\n  ¦`,
    ],
    [
      'keeps the depth after a blank line, and takes its blanks',
      `${top}visit 2026-03-04\n  obel 1\n  ¦`,
      `${top}visit 2026-03-04\n  obel 1\n\n  ¦`,
    ],
    ['goes on with prose', `${top}visit 2026-03-04\n  | Sound.¦`, `${top}visit 2026-03-04\n  | Sound.\n  | ¦`],
    [
      'parts a line of prose in two of prose',
      `${top}visit 2026-03-04\n| Sound. ¦Thin soles.`,
      `${top}visit 2026-03-04\n  | Sound. \n  | ¦Thin soles.`,
    ],
    [
      'ends prose at an empty line of it',
      `${top}visit 2026-03-04\n  | Sound.\n  | ¦\n`,
      `${top}visit 2026-03-04\n  | Sound.\n  ¦\n`,
    ],
    ['goes one deeper in a limits block', `${top}limits¦`, `${top}limits\n  ¦`],
    [
      'indents what goes down with it as its block wants',
      `${top}visit 2026-03-04 ¦weight 512 kg`,
      `${top}visit 2026-03-04\n  ¦weight 512 kg`,
    ],
    [
      'parts a header from what is above it',
      `${top}visit 2026-03-04\n  obel 1\n  plan LF¦`,
      `${top}visit 2026-03-04\n  obel 1\n\n  plan LF\n    ¦`,
    ],
  ])('%s', (_, before, after) => {
    expect(entered(before)).toBe(after);
  });

  it('sets right what the editor has indented, and keeps CR LF', () => {
    expect(entered(`${top}visit 2026-03-04\n  obel       1¦\n`, '        ')).toBe(
      `${top}visit 2026-03-04\n  obel       1\n  ¦\n`,
    );
    expect(entered('hoof 1\r\nvisit 2026-03-04¦\r\n')).toBe('hoof 1\r\n\r\nvisit 2026-03-04\r\n  ¦\r\n');
  });

  it('at the top of a file, or where no line was left, does nothing', () => {
    expect(formatEditsAfterEnter(parse('hoof 1\n'), 0)).toEqual([]);
    expect(formatEditsAfterEnter(parse('hoof 1\n'), 3)).toEqual([]);
  });
});
