// Random sequences of edits: what is told of a text must not depend on the texts before it. `npm run fuzz -- --help` says how.
import { spawnSync } from 'node:child_process';
import { join, relative } from 'node:path';
import { parseArgs } from 'node:util';
import { readCase, writeCase, type Case, type Kind } from './case-file.ts';
import { pipelines } from './fresh.ts';
import { failureOf, seedOf, statesOf, type Failure, type Instances } from './sequence.ts';
import { TwoServers } from './served.ts';
import { shrunk } from './shrink.ts';
import type { State } from './state.ts';

const usage = `Random sequences of edits, each text told with what is remembered and told anew; both must be equal.

  npm run fuzz                        20,000 sequences in the pipeline, 400 more through two real servers
  npm run fuzz -- --sequences 100000  so many
  npm run fuzz -- --servers 2000      so many through the servers
  npm run fuzz -- --minutes 10        for so long, however many that are
  npm run fuzz -- --seed 7            other sequences
  npm run fuzz -- --seed 7 --first 41 --sequences 1 --servers 0
                                      one sequence again
  npm run fuzz -- --properties no     without the tests of properties, which draw by the same seed;
                                      or the path of those to run
  npm run fuzz -- --case out/fuzz/…/case.json
                                      a failing case again

A failing sequence is made as short as it can be and written to out/fuzz. Then the tests in tests/property draw by the
seed, which they take from UNGULA_SEED. Ends with 0 where all was as it should be, else with 1.`;

const root = join(import.meta.dirname, '..', '..');
const folder = join(root, 'out', 'fuzz');

function options() {
  return parseArgs({
    options: {
      sequences: { type: 'string' },
      servers: { type: 'string' },
      minutes: { type: 'string' },
      seed: { type: 'string' },
      first: { type: 'string' },
      case: { type: 'string' },
      properties: { type: 'string', default: 'tests/property' },
      help: { type: 'boolean', default: false },
    },
  }).values;
}

type Name = 'sequences' | 'servers' | 'minutes' | 'seed' | 'first';

function count(name: Name, given: string | undefined): number | undefined {
  if (given === undefined) return undefined;
  const number = Number(given);
  if (given.trim() === '' || !Number.isFinite(number) || number < 0)
    throw new Error(`--${name} takes a number from 0, not «${given}»`);
  return number;
}

/** Modules with a memory of their own are made anew now and then, or what one sequence left would help the next. */
const renewedAfter = 250;
const mostFailures = 5;

async function main(): Promise<void> {
  const values = options();
  if (values.help) return void console.log(usage);
  if (values.case !== undefined) return again(values.case);
  const minutes = count('minutes', values.minutes);
  const seed = count('seed', values.seed) ?? Math.floor(Math.random() * 2 ** 31);
  const first = count('first', values.first) ?? 0;
  const sequences = count('sequences', values.sequences) ?? (minutes === undefined ? 20_000 : Infinity);
  const servers = count('servers', values.servers) ?? (minutes === undefined ? 400 : Infinity);
  const end = minutes === undefined ? Infinity : Date.now() + minutes * 60_000;
  console.log(`seed ${seed}`);
  // With a time given the servers have a quarter of it.
  const half = minutes === undefined || servers === 0 ? end : Date.now() + minutes * 45_000;
  const failed = (await inPipeline(seed, first, sequences, half)) + (await throughServers(seed, first, servers, end));
  const sound = values.properties === 'no' || properties(seed, values.properties);
  process.exitCode = failed > 0 || !sound ? 1 : 0;
}

/** The tests of properties with other random inputs than those of every run; whether they passed. */
function properties(seed: number, path: string): boolean {
  console.log(`properties: UNGULA_SEED=${seed} npx vitest run ${path}`);
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const { status } = spawnSync(process.execPath, [vitest, 'run', path], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, UNGULA_SEED: String(seed) },
  });
  return status === 0;
}

interface Small {
  readonly states: State[];
  readonly failure: Failure;
}

/** Goes through `sequences` numbers from `first`, says how far it is, and stops at the time or after some failures. */
async function each(
  kind: Kind,
  { seed, first, sequences, end }: { seed: number; first: number; sequences: number; end: number },
  one: (states: State[], seed: number) => Promise<{ failure: Failure; small: () => Promise<Small> } | null>,
): Promise<number> {
  const began = Date.now();
  let said = began;
  let states = 0;
  let done = 0;
  let failures = 0;
  for (; done < sequences && Date.now() < end && failures < mostFailures; done++) {
    const own = seedOf(seed, first + done);
    const all = statesOf(own);
    states += all.length;
    const failed = await one(all, own);
    if (failed) {
      failures++;
      const { failure } = failed;
      const at = `sequence ${first + done} of seed ${seed}`;
      console.log(`\n${kind}: ${at} fails at its state ${failure.at}\n  ${failure.difference}`);
      const { states: small, failure: last } = await failed.small();
      const length = small.reduce((sum, { text }) => sum + text.length, 0);
      const found: Case = { kind, seed: own, difference: last.difference, states: small };
      const path = relative(root, writeCase(folder, `${kind}-${seed}-${first + done}`, found, last));
      console.log(`  ${small.length} states of ${length} characters are left of it, in ${path}`);
      console.log(`  to run it again: npm run fuzz -- --case ${path}`);
    }
    if (Date.now() - said > 20_000) {
      said = Date.now();
      console.log(
        `${kind}: ${done + 1} sequences, ${states} states, ${failures} failed, ${((said - began) / 1000).toFixed(0)} s`,
      );
    }
  }
  const seconds = ((Date.now() - began) / 1000).toFixed(0);
  console.log(`${kind}: ${done} sequences, ${states} states, ${failures} failed, in ${seconds} s`);
  if (failures === mostFailures) console.log(`${kind}: stopped after ${mostFailures} failures`);
  return failures;
}

async function inPipeline(seed: number, first: number, sequences: number, end: number): Promise<number> {
  if (sequences === 0) return 0;
  const make = await pipelines();
  let instances: Instances | undefined;
  let uses = 0;
  return each('pipeline', { seed, first, sequences, end }, async (states) => {
    if (uses++ % renewedAfter === 0) instances = undefined;
    const failure = failureOf(states, (instances ??= { remembering: make(), forgetting: make() }));
    if (!failure) return null;
    const anew = (some: readonly State[]): Failure | null =>
      failureOf(some, { remembering: make(), forgetting: make() });
    return {
      failure,
      small: async () => {
        const upTo = states.slice(0, failure.at + 1);
        if (!anew(upTo)) {
          console.log('  it does not fail by itself: it needs what earlier sequences left in the modules');
          return { states: upTo, failure };
        }
        const small = await shrunk(upTo, (some) => anew(some) !== null);
        return { states: small, failure: anew(small) ?? failure };
      },
    };
  });
}

async function throughServers(seed: number, first: number, sequences: number, end: number): Promise<number> {
  if (sequences === 0) return 0;
  const two = new TwoServers();
  try {
    return await each('servers', { seed, first, sequences, end }, async (states, own) => {
      const failure = await two.failureOf(states, own);
      if (!failure) return null;
      return {
        failure,
        small: async () => {
          // A failure of the servers may wait for what never comes, so it is not tried for as long.
          const fails = async (some: readonly State[]): Promise<boolean> => (await two.failureOf(some, own)) !== null;
          const small = await shrunk(states.slice(0, failure.at + 1), fails, 100);
          return { states: small, failure: (await two.failureOf(small, own)) ?? failure };
        },
      };
    });
  } finally {
    await two.stop();
  }
}

async function again(path: string): Promise<void> {
  const { kind, seed, states } = readCase(path);
  const two = new TwoServers();
  const make = await pipelines();
  const failure =
    kind === 'servers'
      ? await two.failureOf(states, seed)
      : failureOf(states, { remembering: make(), forgetting: make() });
  await two.stop();
  console.log(failure ? `fails at its state ${failure.at}\n  ${failure.difference}` : 'all states are told the same');
  process.exitCode = failure ? 1 : 0;
}

try {
  await main();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 2;
}
