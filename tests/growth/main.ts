// How time grows with a case file: every request of the server and every command, over files of many shapes up to 8 MB. What takes more than
// in proportion fails. By processor time, and by ratios within one run; it takes an hour or two. `npm run growth -- --help` says how.
import { build, type BuildOptions } from 'esbuild';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
import { commandTimes } from './commands.ts';
import { mostLines } from '../../shared/findings/engine/file-problems.ts';
import { LineMap } from '../../shared/notation/line-map.ts';
import { serverTimes } from './requests.ts';
import { shapes, type Shape } from './shapes.ts';
import type { Time } from './time.ts';

const usage = `How the time of every request and command grows with a case file.

  npm run growth                          every shape at 1, 2, 4 and 8 MB, or with as many lines as a case may have
  npm run growth -- --sizes 0.25,2        at these sizes, MB
  npm run growth -- --shape plans         of one shape only; may be said several times
  npm run growth -- --only server         or commands
  npm run growth -- --list                the shapes

Ends with 1 where something takes more than 2.5 times as long as in proportion, or more than 20 s of the processor.`;

/** How many times longer than in proportion something may take. */
const most = 2.5;
/** What takes no longer is not judged by its ratio, seconds. */
const short = 1;
/** Seconds that nothing takes unless it grows by more than it should. */
const patience = 20;

const root = join(import.meta.dirname, '..', '..');

/** The command line as it ships. */
async function commandLine(): Promise<string> {
  const outfile = join(root, '.cache', 'growth', 'cli.js');
  mkdirSync(join(root, '.cache', 'growth'), { recursive: true });
  await build({ ...(outputs as { commandLine: BuildOptions }).commandLine, absWorkingDir: root, outfile });
  return outfile;
}

interface Measured {
  readonly what: string;
  /** By size, in the order of the sizes. */
  readonly times: readonly (Time | undefined)[];
}

async function measured(
  make: Shape,
  sizes: readonly number[],
  run: (text: string) => Promise<Time[]>,
): Promise<Measured[]> {
  const all: Time[][] = [];
  for (const size of sizes) all.push(await run(make(size * 1e6)));
  return (all.at(-1) ?? []).map(({ what }) => ({
    what,
    times: all.map((times) => times.find((time) => time.what === what)),
  }));
}

/** The sizes, or as many times smaller ones that the largest has no more lines than a case may: of a larger one nothing is read. */
function inBounds(make: Shape, sizes: readonly number[]): readonly number[] {
  const { length } = new LineMap(make(Math.max(...sizes) * 1e6)).starts;
  const share = (0.99 * mostLines) / length;
  return share < 1 ? sizes.map((size) => size * share) : sizes;
}

/** What is wrong with how it grows; null where nothing is. */
function wrongWith({ times }: Measured, sizes: readonly number[]): string | null {
  const seconds = times.map((time) => time?.seconds ?? NaN);
  const [first = NaN] = seconds;
  const last = seconds.at(-1) ?? NaN;
  const failed = times.find((time) => Number.isNaN(time?.seconds ?? NaN));
  if (failed || times.includes(undefined)) return `failed: ${failed?.says ?? 'not measured at each size'}`;
  if (last > patience) return `takes more than ${patience} s`;
  const share = (sizes.at(-1) ?? NaN) / (sizes[0] ?? NaN);
  return last > short && last > share * most * first
    ? `grows ${(last / first).toFixed(0)} times with a file ${share} times as large`
    : null;
}

function line({ what, times }: Measured, wrong: string | null): string {
  const cells = times.map(
    (time) => `${(time?.seconds ?? NaN).toFixed(2)} s${time?.megabytes ? ` ${time.megabytes} MB` : ''}`,
  );
  return `  ${what.padEnd(40)}${cells.map((cell) => cell.padStart(18)).join('')}${wrong === null ? '' : `  ${wrong}`}`;
}

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: {
      sizes: { type: 'string', default: '1,2,4,8' },
      shape: { type: 'string', multiple: true },
      only: { type: 'string' },
      list: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  });
  if (values.help || values.list) {
    console.log(values.help ? usage : Object.keys(shapes).join('\n'));
    return 0;
  }
  const asked = values.sizes.split(',').map(Number);
  if (asked.length < 2 || asked.some((size) => !(size > 0 && size < 10)))
    throw new Error('--sizes takes two or more, in MB below 10');
  const wanted = values.shape ?? Object.keys(shapes);
  const cli = values.only === 'server' ? null : await commandLine();
  let bad = 0;
  for (const name of wanted) {
    const make = shapes[name];
    if (!make) throw new Error(`there is no shape «${name}»; --list names them`);
    const run = async (text: string): Promise<Time[]> => [
      ...(values.only === 'commands' ? [] : await serverTimes(text, patience)),
      ...(cli === null ? [] : await commandTimes(cli, text, patience)),
    ];
    const sizes = inBounds(make, asked);
    console.log(`\n${name}${sizes === asked ? '' : ` at ${sizes.map((size) => size.toFixed(2)).join(', ')} MB`}`);
    let again: Measured[] | null = null;
    for (const one of await measured(make, sizes, run)) {
      let [told, wrong] = [one, wrongWith(one, sizes)];
      if (wrong !== null) {
        // Once more, in case that the machine was to blame.
        again ??= await measured(make, sizes, run);
        told = again.find(({ what }) => what === one.what) ?? one;
        wrong = wrongWith(told, sizes);
      }
      if (wrong !== null) bad += 1;
      console.log(line(told, wrong));
    }
  }
  console.log(bad === 0 ? '\nnothing grows by more than it should' : `\n${bad} grow by more than they should`);
  return bad === 0 ? 0 : 1;
}

process.exitCode = await main();
