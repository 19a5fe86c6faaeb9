import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { seedOf, statesOf } from '../fuzz/sequence.ts';

const program = resolve(import.meta.dirname, '..', 'fuzz', 'main.ts');

/** What `npm run fuzz` says, with one short sequence to go through. */
function run(...options: string[]): string {
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    [program, '--sequences', '1', '--servers', '0', ...options],
    { encoding: 'utf8' },
  );
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return stdout;
}

it('the random edits draw another seed each run, say it, and take it to run again', { timeout: 120_000 }, () => {
  const [one, other] = [run(), run()];
  const seed = /^seed (\d+)$/m.exec(one)?.[1] ?? '';
  expect(seed).not.toBe('');
  expect(/^seed (\d+)$/m.exec(other)?.[1]).not.toBe(seed);
  const plain = (said: string): string => said.replace(/ in \d+ s/, '');
  expect(plain(run('--seed', seed))).toBe(plain(one));
});

it('the sequences of a seed are the same each time, and make numbers that nobody means', () => {
  const texts = (seed: number): string =>
    JSON.stringify(Array.from({ length: 60 }, (_, number) => statesOf(seedOf(seed, number))));
  expect(texts(7)).toBe(texts(7));
  expect(texts(8)).not.toBe(texts(7));
  const many = Array.from({ length: 40 }, (_, seed) => texts(7 + seed)).join('');
  for (const absurd of ['1e308', 'height -148 cm', 'Infinity', '9'.repeat(40), '0.00000000', '"mmPerPx":0,'])
    expect(many, absurd).toContain(absurd);
});
