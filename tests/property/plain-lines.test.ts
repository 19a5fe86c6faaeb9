import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { grammarLines, parseLines } from '../../shared/notation/lines.ts';
import { PlainLines } from '../../shared/notation/plain-lines.ts';
import { LineMap } from '../../shared/notation/line-map.ts';
import { byteEdit, randomFrom, tokenEdit } from './random-edits.ts';

/** Lines are read in one walk where they are plain and by the grammar where not; the grammar is what counts. */

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

/** What tokens begin with, end with and are mistaken for. */
const pieces =
  'a Z_ because becauses followed followeds é ß 0 7 12 2026 2026-03-04 2026-03-041 2026-3-4 2026-03 4.3.2026 2026/3/4 - -5 . .. ... .5 5. 1.5 1, 2 , .. @ = + +- ± < > <= >= ≤ % µ mm uIU/mL mm/px p3.tip a. a- -a a/b " "x" "\\ \\" "a\\"b" | # \\ ! { ( \ufeff \u00a0 \u2028 \u0000 𝔥 \ud800'
    .split(' ')
    .concat([
      '"a b"',
      '1, 2',
      '1, 2 .. 3, 4',
      '1, 2 .. 3',
      '|x',
      '#x',
      '\t',
      '\v',
      ' ',
      '  ',
      '\n',
      '\r',
      '\r\n',
      '\n\r',
    ]);

function plainShare(text: string): number {
  const { starts } = new LineMap(text);
  const lines = starts.filter((start) => start < text.length);
  const reader = new PlainLines(text);
  return lines.filter((start) => reader.read(start)).length / Math.max(1, lines.length);
}

describe('lines read in one walk', () => {
  it('are nearly all lines of the examples', () => {
    for (const example of examples) expect(plainShare(example)).toBeGreaterThan(0.97);
  });

  it('are what the grammar makes of them, in random lines of awkward pieces', () => {
    const random = randomFrom(1882);
    let plain = 0;
    const rounds = 20_000;
    for (let round = 0; round < rounds; round++) {
      let text = '';
      for (let count = 1 + random(7); count > 0; count--)
        text += (pieces[random(pieces.length)] ?? '') + (random(3) === 0 ? ' ' : '');
      expect(parseLines(text), JSON.stringify(text)).toEqual(grammarLines(text));
      plain += plainShare(text);
    }
    // Enough of them are not given up, or the comparison would hold the grammar against itself.
    expect(plain / rounds).toBeGreaterThan(0.2);
    expect(plain / rounds).toBeLessThan(0.8);
  });

  it('are what the grammar makes of them, in the examples after random edits', () => {
    const random = randomFrom(77);
    for (const example of examples) {
      let text = example;
      for (let step = 0; step < 40; step++) {
        text = step % 2 === 0 ? byteEdit(text, random) : tokenEdit(text, random);
        if (step === 20) text = text.replaceAll('\n', '\r\n');
        if (step === 30) text = text.replaceAll('\r\n', '\r');
        expect(parseLines(text), `step ${step}`).toEqual(grammarLines(text));
      }
    }
  });
});
