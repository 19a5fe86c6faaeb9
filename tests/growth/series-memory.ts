// How much memory `ungula export` takes as the series grows: cases go through one by one, so that a series of any size takes as much as a
// small one. `node tests/growth/series-memory.ts 200,2000` measures each size in a process of its own and ends with 1 where it grows.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { commandLine } from '../../src/cli/command-line.ts';
import { writeMadeCases } from '../unit/made-cases.ts';

export interface TakenMemory {
  /** The most that was in use after a collection of garbage, bytes. */
  readonly live: number;
  /** The most that the process had of the machine, bytes. */
  readonly resident: number;
  readonly cases: number;
}

/** By how much more memory a series that is ten times as large may take. */
export const mostGrowth = { live: 1.25, resident: 1.6 } as const;

/** Exports so many made cases, as CSV and Parquet, in a process of its own. */
export function memoryFor(cases: number): TakenMemory {
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    // A small nursery, so that what is dead does not count for long.
    ['--expose-gc', '--max-semi-space-size=8', import.meta.filename, '--measure', String(cases)],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout) as TakenMemory;
}

async function measured(cases: number): Promise<TakenMemory> {
  const folder = mkdtempSync(join(tmpdir(), 'ungula-memory-'));
  try {
    writeMadeCases(join(folder, 'given'), cases);
    let live = 0;
    let seen = 0;
    const status = await commandLine(['export', join(folder, 'given'), '-o', join(folder, 'package'), '--parquet'], {
      out: () => {},
      err: () => {},
      progress() {
        if (++seen % 50 !== 0) return;
        globalThis.gc?.();
        live = Math.max(live, process.memoryUsage().heapUsed + process.memoryUsage().external);
      },
    });
    if (status !== 0 || live === 0) throw new Error(`export ended with ${status}, ${live} bytes seen`);
    return { live, resident: process.resourceUsage().maxRSS * 1024, cases };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (import.meta.main) {
  const [first = '200,2000', second = ''] = process.argv.slice(2);
  if (first === '--measure') process.stdout.write(JSON.stringify(await measured(Number(second))));
  else {
    const all = first.split(',').map((size) => memoryFor(Number(size)));
    for (const { cases, live, resident } of all)
      console.log(
        `${cases} cases: ${(live / 1e6).toFixed(0)} MB in use at most, ${(resident / 1e6).toFixed(0)} MB of the machine`,
      );
    const [least, most] = [all[0], all.at(-1)];
    const grows =
      least &&
      most &&
      (most.live > mostGrowth.live * least.live || most.resident > mostGrowth.resident * least.resident);
    if (grows) console.log('It grows with the series.');
    process.exitCode = grows ? 1 : 0;
  }
}
