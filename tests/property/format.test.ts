import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { format } from '../../shared/notation/format.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { randomLine } from './random-lines.ts';
import { byteEdit, randomFrom, tokenEdit } from './random-edits.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

/** The record without the places that it was read from, and the codes of the problems in order. */
function meaning(text: string): { record: unknown; codes: string[] } {
  const { record, problems } = assemble(parse(text));
  const placeless = JSON.parse(
    JSON.stringify(record, (key, value: unknown) =>
      /^(?:at|within|head|start|line|.+At)$/.test(key) && key !== 'line'
        ? undefined
        : key === 'line' && typeof value === 'number'
          ? undefined
          : value,
    ),
  );
  return { record: placeless, codes: problems.map(({ code }) => code).sort() };
}

function check(text: string): void {
  const once = format(text);
  const twice = format(once);
  if (twice !== once)
    throw new Error(
      `formatting twice differs from once\n${JSON.stringify(text)}\n${JSON.stringify(once)}\n${JSON.stringify(twice)}`,
    );
  const before = meaning(text);
  const after = meaning(once);
  try {
    expect(after).toEqual(before);
  } catch (error) {
    throw new Error(`formatting changed what the file means\n${JSON.stringify(text)}\n${JSON.stringify(once)}`, {
      cause: error,
    });
  }
}

describe('formatting', () => {
  it('leaves the examples as they are: they are laid out', () => {
    for (const example of examples) expect(format(example)).toBe(example);
  });

  it('twice equals once and never changes the record, on 6,000 randomly edited examples', () => {
    const random = randomFrom(99);
    for (let series = 0; series < 600; series++) {
      let text = examples[series % examples.length] as string;
      if (series % 3 === 1) text = text.replaceAll('\n', '\r\n');
      for (let step = 0; step < 10; step++) {
        text = series % 2 === 0 ? byteEdit(text, random) : tokenEdit(text, random);
        check(text);
      }
    }
  });

  it('keeps every line that the vocabulary lets a block take', () => {
    const random = randomFrom(5);
    const broken = new Set<string>();
    for (const place of ['case', 'visit', 'film', 'trim'] as const)
      for (let round = 0; round < 500; round++) {
        const line = randomLine(random, place);
        const opening = { case: 'case "X"', visit: '', film: 'film LF lateral "a.png"', trim: 'trim LF' }[place];
        const text = `hoof 1\n${place === 'case' ? '' : 'visit 2026-03-04\n'}${opening}\n  ${line}\n`;
        check(text);
        for (const { code } of assemble(parse(text)).problems) broken.add(code);
      }
    // A unit or a date that was drawn at random may put a number out of its range or two dates backwards; nothing else is wrong with such a line.
    expect(
      [...broken].filter(
        (code) => !/number-range|microchip|code-form|next-date|missing-argument|dates-backwards/.test(code),
      ),
    ).toEqual([]);
  });

  it("keeps the file's own line ends", () => {
    const text = 'hoof 1\r\ncase "X"\r\nbreed   "cob"\r\n';
    expect(format(text)).toBe('hoof 1\r\n\r\ncase "X"\r\n  breed     "cob"\r\n');
  });
});
