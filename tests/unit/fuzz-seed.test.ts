import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';
import { seedOf, statesOf } from '../fuzz/sequence.ts';

const root = resolve(import.meta.dirname, '..', '..');
const program = join(root, 'tests', 'fuzz', 'main.ts');
const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');

/** What `npm run fuzz` says, with one short sequence to go through. */
function run(options: readonly string[], env = process.env): string {
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    [program, '--sequences', '1', '--servers', '0', ...options],
    { encoding: 'utf8', env },
  );
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return stdout;
}

it('the random edits draw another seed each run, say it, and take it to run again', { timeout: 600_000 }, () => {
  const edits = (...options: string[]): string => run(['--properties', 'no', ...options]);
  const [one, other] = [edits(), edits()];
  const seed = /^seed (\d+)$/m.exec(one)?.[1] ?? '';
  expect(seed).not.toBe('');
  expect(/^seed (\d+)$/m.exec(other)?.[1]).not.toBe(seed);
  const plain = (said: string): string => said.replace(/ in \d+ s/, '');
  expect(plain(edits('--seed', seed))).toBe(plain(one));
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

const oneFile = 'tests/property/decimal.test.ts';

/** What the properties of a file draw while `work` has them run; it is given a part of the environment for that. */
function drawnBy(work: (env: NodeJS.ProcessEnv) => void): string {
  const folder = mkdtempSync(join(tmpdir(), 'ungula-drawn-'));
  try {
    const { UNGULA_SEED: _, ...env } = process.env;
    work({ ...env, UNGULA_DRAWN: join(folder, 'drawn') });
    return readFileSync(join(folder, 'drawn'), 'utf8');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const drawnWith = (seed?: number): string =>
  drawnBy((usual) => {
    const env = seed === undefined ? usual : { ...usual, UNGULA_SEED: String(seed) };
    expect(spawnSync(process.execPath, [vitest, 'run', oneFile], { cwd: root, env }).status).toBe(0);
  });

it('properties draw by the seed that they are given, and without one the same each time', { timeout: 600_000 }, () => {
  const usual = drawnWith();
  expect(usual.split('\n').length).toBeGreaterThan(1000);
  expect(drawnWith()).toBe(usual);
  const seven = drawnWith(7);
  expect(seven).not.toBe(usual);
  expect(drawnWith(8)).not.toBe(seven);
});

it('the random edits hand their seed on to the properties, and say so', { timeout: 600_000 }, () => {
  let said = '';
  const drawn = drawnBy((env) => (said = run(['--seed', '7', '--properties', oneFile], env)));
  expect(said).toContain(`UNGULA_SEED=7 npx vitest run ${oneFile}`);
  expect(drawn).toBe(drawnWith(7));
});
