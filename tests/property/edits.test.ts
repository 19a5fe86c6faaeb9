import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { byteEdit, randomFrom, tokenEdit } from './random-edits.ts';
import { coverageFault } from './tree-cover.ts';

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

/** How many changes are tried; the wish is 100,000, in under a minute. */
const changes = Number(process.env['UNGULA_EDITS'] ?? 100_000);
/** After so many changes on top of one another a text is begun anew, or it would be noise only. */
const run = 25;

describe('random edits of the examples', () => {
  it(`never stop the parser, and the tree always covers the text (${changes} edits)`, () => {
    const random = randomFrom(20260304);
    let done = 0;
    let inspected = 0;
    for (let series = 0; done < changes; series++) {
      let text = examples[series % examples.length] as string;
      const memory = new BlockMemory();
      for (let step = 0; step < run && done < changes; step++, done++) {
        text = series % 2 === 0 ? byteEdit(text, random) : tokenEdit(text, random);
        const tree = parse(text, memory);
        const fault = coverageFault(tree);
        if (fault) throw new Error(`series ${series}, step ${step}: ${fault}\n${JSON.stringify(text)}`);
        if (step === run - 1) {
          const { findings } = inspect(text, undefined, memory);
          inspected += 1;
          for (const { at, code } of findings)
            if (!(at.start >= 0 && at.end <= text.length && at.start <= at.end))
              throw new Error(
                `series ${series}: ${code} at ${at.start} to ${at.end}, outside the text\n${JSON.stringify(text)}`,
              );
        }
      }
    }
    expect(done).toBe(changes);
    expect(inspected).toBeGreaterThanOrEqual(Math.floor(changes / run));
  });

  it('give the same with the memory of earlier texts as without it', () => {
    const random = randomFrom(7);
    for (const example of examples) {
      const memory = new BlockMemory();
      let text = example;
      for (let step = 0; step < 150; step++) {
        text = step % 2 === 0 ? byteEdit(text, random) : tokenEdit(text, random);
        if (step % 30 === 29) text = example;
        const remembered = inspect(text, undefined, memory);
        const fresh = inspect(text);
        expect(remembered.findings).toEqual(fresh.findings);
        expect(remembered.study.record).toEqual(fresh.study.record);
      }
    }
  });
});
