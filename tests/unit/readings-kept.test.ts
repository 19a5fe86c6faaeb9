import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { ReadFilms, takenFilms } from '../../shared/agreement/read-films.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { landmarks } from '../../shared/notation/landmarks.ts';
import { measures } from '../../shared/measures/registry.ts';
import { filmText } from './plain-foot.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

function heap(): number {
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

const files = 200;
const textOf = (file: number): string => {
  const film = filmText({}, { header: `film LF lateral "a picture of a name that is long ${file}.png"` });
  const again = film
    .split('\n')
    .filter((line) => line.includes('@'))
    .join('\n');
  // What else stands in a case, which nobody needs for its readings.
  const prose = `  | ${'words '.repeat(4000)}\n`;
  return `hoof 1\n\ncase "Alder ${file}"\n\nvisit 2026-03-04\n${prose}${film}\n    read "a reader of a name that is long"\n${again}\n`;
};

it('of each reading of a folder its numbers are kept, and nothing of the text', async () => {
  const films = new ReadFilms();
  const read = (from: number): void => {
    for (let file = from; file < from + files; file++) films.add('.', takenFilms(inspect(textOf(file)).study.films));
  };
  // What the program itself takes once is there after the first of them.
  read(0);
  await settled();
  const before = heap();
  read(files);
  await settled();
  const kept = (heap() - before) / (2 * files);
  expect(films.all().films).toHaveLength(2 * files);
  const numbers = 8 * (measures.length + 2 * landmarks.length);
  expect(kept).toBeGreaterThan(numbers);
  // As much again for what holds them; the text of such a case would be 26 KB.
  expect(kept).toBeLessThan(2 * numbers + 2000);
});

/** What is let go of in the turn that runs is collected in the next. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 50));
