import { spawn } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { watched, type Time } from './time.ts';

const commands: Readonly<Record<string, readonly string[]>> = {
  check: ['check'],
  'check as JSON': ['check', '--format', 'json'],
  measure: ['measure'],
  'measure as JSON': ['measure', '--format', 'json'],
  'measure as CSV': ['measure', '--format', 'csv'],
  course: ['course'],
  'course as JSON': ['course', '--format', 'json'],
  'course as CSV': ['course', '--format', 'csv'],
  plan: ['plan', '--foot', 'LF', '--to', 'sole-plane'],
  format: ['format'],
  report: ['report', '-o'],
};

/** Runs every command of `cli` over a text, each in a process of its own. */
export async function commandTimes(cli: string, text: string, patience: number): Promise<Time[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ungula-growth-'));
  try {
    const file = join(folder, 'case.hoof');
    writeFileSync(file, text);
    const times: Time[] = [];
    for (const [what, [name = '', ...options]] of Object.entries(commands)) {
      const args = name === 'report' ? [name, file, ...options, join(folder, 'out.html')] : [name, file, ...options];
      times.push(await commandTime(`ungula ${what}`, [cli, ...args], join(folder, 'out'), patience));
    }
    return times;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function commandTime(what: string, args: string[], out: string, patience: number): Promise<Time> {
  const output = openSync(out, 'w');
  const child = spawn(process.execPath, args, { stdio: ['ignore', output, 'pipe'] });
  let says = '';
  let gaveUp = false;
  child.stderr?.on('data', (data: Buffer) => (says += data.toString()));
  const watch = watched(child.pid, patience, () => {
    gaveUp = true;
    child.kill('SIGKILL');
  });
  const status = await new Promise<number | null>((resolve) => child.once('close', resolve));
  const { seconds, megabytes } = watch.end();
  closeSync(output);
  if (gaveUp) return { what, seconds: Infinity, megabytes };
  if (status === null || status > 2) return { what, seconds: NaN, megabytes, says: says.slice(0, 300) };
  return { what, seconds, megabytes, says: `${(statSync(out).size / 1e6).toFixed(1)} MB` };
}
