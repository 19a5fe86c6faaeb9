import { describe, expect, it } from 'vitest';
import { nearPartAt } from '../../shared/notation/near-part.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { splitBlocks } from '../../shared/notation/split.ts';
import type { Tree } from '../../shared/notation/tree.ts';
import { fullCase } from '../bench/full-case.ts';
import { randomFrom, tokenEdit } from './random-edits.ts';
import { coverageFault } from './tree-cover.ts';

/** What a tree with a memory takes from the tree before has to be what it would make itself. */

/** Headers, what looks like them, and what may stand before and behind. */
const pieces = [
  'visit',
  'case "X"',
  'limits',
  'hoof 1',
  'visit 2026-03-04',
  'vist 2026-03-04',
  '2026-03-04',
  'Limits',
  'cse "X"',
  'case LF',
  '\nobel 4\n',
  '\nanimal horse\n',
  '\ntoe-length >= 5 mm\n',
  'visits',
  'visit,',
  '\tvisit',
  '\ufeffvisit',
  'x',
  '|',
  '#',
  ' ',
  '\n',
  '\n',
  '\r',
  '\r\n',
  '\u00a0',
];

/** Where blocks may begin: by one expression over the whole text, and at lines that nearly begin one. Some of these are misread, and begin none. */
const headerAtLineStart = /(?:^|\r\n|\n|\r)(?=[^\S\r\n]*(?:hoof|case|limits|visit)(?![^\s"#|,@=]))/g;

function startsByExpression(text: string): number[] {
  const starts = [...text.matchAll(headerAtLineStart)].map((match) => match.index + match[0].length);
  const nearly = [...text.matchAll(/(?:\r\n|\n|\r)/g)]
    .map((match) => match.index + match[0].length)
    .filter((start) => nearPartAt(text, start) !== null);
  return [0, ...starts, ...nearly];
}

function cut(text: string, random: (below: number) => number): string {
  const at = random(text.length + 1);
  const end = Math.min(text.length, at + random(6));
  switch (random(5)) {
    case 0:
      return text.slice(0, at) + text.slice(end);
    case 1:
      return text.slice(0, at) + text.slice(at, end) + text.slice(at);
    case 2: {
      // A stretch moved to another place.
      const rest = text.slice(0, at) + text.slice(end);
      const to = random(rest.length + 1);
      return rest.slice(0, to) + text.slice(at, end) + rest.slice(to);
    }
    default:
      return text.slice(0, at) + (pieces[random(pieces.length)] ?? '') + text.slice(at);
  }
}

const places = ({ blocks }: Tree) => blocks.map(({ start, line, block }) => ({ start, line, text: block.text }));

function contents({ blocks }: Tree) {
  return blocks.map(({ start, line, block: { text, row, header, lines, entries, problems } }) => ({
    start,
    line,
    block: { text, row, header, lines, entries, problems },
  }));
}

describe('blocks after edits', () => {
  it('begin and end where those of the text alone do, in short texts full of headers', () => {
    const random = randomFrom(1907);
    for (let series = 0; series < 400; series++) {
      const memory = new BlockMemory();
      let text = '';
      for (let step = 0; step < 100; step++) {
        for (let edits = 1 + (random(4) === 0 ? random(3) : 0); edits > 0; edits--) text = cut(text, random);
        const tree = parse(text, memory);
        const said = JSON.stringify(text);
        const may = startsByExpression(text);
        expect(
          splitBlocks(text).filter(({ start }) => !may.includes(start)),
          said,
        ).toEqual([]);
        expect(places(tree), said).toEqual(places(parse(text)));
        expect(coverageFault(tree), said).toBeNull();
      }
    }
  });

  it('hold what those of the text alone hold, in a case of many visits', () => {
    const random = randomFrom(12);
    const memory = new BlockMemory();
    const whole = fullCase(8);
    let text = whole;
    for (let step = 0; step < 120; step++) {
      const lines = text.split('\n');
      const from = random(lines.length);
      const count = random(60);
      // One visit is written in, and now and then a stretch of lines is moved or repeated.
      if (random(3) > 0) text = tokenEdit(text, random);
      else {
        const stretch = random(2) === 0 ? lines.splice(from, count) : lines.slice(from, from + count);
        lines.splice(random(lines.length + 1), 0, ...stretch);
        text = lines.join('\n');
      }
      if (step % 30 === 29) text = whole;
      expect(contents(parse(text, memory)), `step ${step}`).toEqual(contents(parse(text)));
    }
  });

  it('are the very blocks of before where they have not changed', () => {
    const memory = new BlockMemory();
    const text = fullCase(20);
    const before = parse(text, memory).blocks.map(({ block }) => block);
    const after = parse(text.replace('"visit 9"', '"visit nine"\n'), memory).blocks.map(({ block }) => block);
    expect(after).toHaveLength(before.length);
    expect(after.filter((block, index) => block !== before[index])).toHaveLength(1);
    expect(parse(text.replace('"visit 9"', '"visit nine"\n'), memory)).toBe(memory.tree);
  });
});
