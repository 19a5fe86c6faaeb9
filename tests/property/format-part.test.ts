import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { format, formatEdits } from '../../shared/notation/format.ts';
import { formatEditsAfterEnter, formatEditsIn } from '../../shared/notation/format-part.ts';
import { parse } from '../../shared/notation/parse.ts';
import type { Edit } from '../../shared/notation/problems.ts';
import { byteEdit, randomFrom, tokenEdit } from './random-edits.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

function applied(text: string, edits: readonly Edit[]): string {
  let result = '';
  let from = 0;
  for (const { start, end, text: put } of edits) {
    if (start < from || end < start) throw new Error('the edits are out of order or meet');
    result += text.slice(from, start) + put;
    from = end;
  }
  return result + text.slice(from);
}

/** Texts that have something to lay out, with the three kinds of line end. */
function* untidyTexts(count: number, seed: number): Generator<{ text: string; random: (below: number) => number }> {
  const random = randomFrom(seed);
  const ends = ['\n', '\r\n', '\r'];
  for (let series = 0; series < count; series++) {
    let text = examples[series % examples.length] as string;
    text = text.replaceAll('\n', ends[series % ends.length] as string).replace(/^ {4}/gm, () => ' '.repeat(random(7)));
    for (let step = 0; step < 6; step++) text = series % 2 === 0 ? byteEdit(text, random) : tokenEdit(text, random);
    yield { text, random };
  }
}

describe('formatting a part', () => {
  it('the whole of a text is formatting it', () => {
    for (const { text } of untidyTexts(120, 7)) {
      expect(formatEditsIn(text, [{ start: 0, end: text.length }])).toEqual(formatEdits(text));
      expect(
        formatEditsIn(text, [
          { start: 0, end: 9 },
          { start: 9, end: text.length },
        ]),
      ).toEqual(formatEdits(text));
    }
  });

  it('changes no line that it does not touch, and what is left comes to the same', () => {
    let changed = 0;
    for (const { text, random } of untidyTexts(120, 8)) {
      const [start, end] = [random(text.length + 1), random(text.length + 1)].toSorted((a, b) => a - b) as [
        number,
        number,
      ];
      const edits = formatEditsIn(text, [{ start, end }]);
      const part = applied(text, edits);
      if (part !== text) changed += 1;
      const first = Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) + 1;
      // A span between CR and LF lies in the line that they end.
      const between = text[first - 1] === '\r' && text[first] === '\n';
      if (!between) expect(part.startsWith(text.slice(0, first))).toBe(true);
      const after = /\r\n|\n|\r|$/g;
      after.lastIndex = end;
      const found = after.exec(text) as RegExpExecArray;
      expect(part.endsWith(text.slice(found.index + found[0].length))).toBe(true);
      expect(format(part)).toBe(format(text));
    }
    expect(changed).toBeGreaterThan(80);
  });
});

describe('after Enter', () => {
  it('touches the line that was left and the blanks of the new one only, and takes nothing written away', () => {
    let changed = 0;
    for (const { text: before, random } of untidyTexts(400, 9)) {
      const at = random(before.length + 1);
      const ending = before.includes('\r\n') ? '\r\n' : before.includes('\n') ? '\n' : '\r';
      // Typed between CR and LF, or an LF typed behind a CR: the two make one line end, and no new line begins.
      if (before[at - 1] === '\r' && (before[at] === '\n' || ending === '\n')) continue;
      const text = `${before.slice(0, at)}${ending}${before.slice(at)}`;
      const offset = at + ending.length;
      const edits = formatEditsAfterEnter(parse(text), offset);
      const left = Math.max(before.lastIndexOf('\n', at - 1), before.lastIndexOf('\r', at - 1)) + 1;
      const blanks = /^[^\S\r\n]*/.exec(text.slice(offset))?.[0].length ?? 0;
      for (const { start, end } of edits)
        expect(start >= left && end <= offset + blanks, JSON.stringify(text)).toBe(true);
      const after = applied(text, edits);
      if (after !== text) changed += 1;
      // The mark of prose comes and goes, and signs have a plain spelling; everything else that is written stays.
      const letters = (of: string): string => of.replace(/[\s|≥≤±<>=+-]/g, '');
      expect(letters(after)).toBe(letters(text));
    }
    expect(changed).toBeGreaterThan(60);
  });

  it('lays out the line that was left as formatting does', () => {
    let laidOut = 0;
    for (const example of examples)
      for (const match of example.matchAll(/^( +)(\S.*)\n(?=.+)/gm)) {
        const line = match.index;
        const untidy = `${example.slice(0, line)}${' '.repeat((match[1] as string).length + 1)}${example.slice(line + (match[1] as string).length)}`;
        const offset = line + match[0].length + 1;
        const edits = formatEditsAfterEnter(parse(untidy), offset).filter(({ start }) => start < offset);
        if (!/^\s*\|/.test(match[2] as string)) expect(applied(untidy, edits)).toBe(format(untidy));
        laidOut += 1;
      }
    expect(laidOut).toBeGreaterThan(200);
  });
});
