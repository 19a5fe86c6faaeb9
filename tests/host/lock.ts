import { mkdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { dirname } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { Failure } from './failure.ts';

const BEAT_SECONDS = 5;
// Several beats, so that a machine under load does not lose its lock.
const SILENT_SECONDS = 60;

/** Holds `file` as a lock while `work` runs; a lock whose holder is gone is taken over. */
export async function withLock<T>(file: string, limitSeconds: number, work: () => Promise<T>): Promise<T> {
  await acquire(file, limitSeconds);
  const release = (): void => rmSync(file, { force: true });
  const beat = setInterval(() => touch(file), BEAT_SECONDS * 1000);
  process.once('exit', release);
  try {
    return await work();
  } finally {
    clearInterval(beat);
    process.off('exit', release);
    release();
  }
}

async function acquire(file: string, limitSeconds: number): Promise<void> {
  mkdirSync(dirname(file), { recursive: true });
  const mine = `${process.pid} ${hostname()}`;
  const until = Date.now() + limitSeconds * 1000;
  let said = false;
  for (;;) {
    if (create(file, mine)) {
      // Two that both found an abandoned lock may each have removed it: the later writer has it.
      await sleep(200);
      if (read(file) === mine) return;
      continue;
    }
    if (abandoned(file)) {
      rmSync(file, { force: true });
      continue;
    }
    if (Date.now() > until) {
      throw new Failure(
        `another set-up has held ${file} for ${limitSeconds} s`,
        'wait for it to end, or delete that file if no other set-up runs, then run this again',
      );
    }
    if (!said) console.log('  another set-up is running; waiting for it');
    said = true;
    await sleep(500);
  }
}

function create(file: string, content: string): boolean {
  try {
    writeFileSync(file, content, { flag: 'wx' });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

function read(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}

function touch(file: string): void {
  try {
    utimesSync(file, new Date(), new Date());
  } catch {
    // Deleted by hand: nothing to keep alive.
  }
}

function abandoned(file: string): boolean {
  const [pid, host] = read(file).split(' ');
  // A process number says something on its own machine only; the home folder may be shared.
  if (host === hostname() && pid !== undefined && !alive(Number(pid))) return true;
  try {
    return Date.now() - statSync(file).mtimeMs > SILENT_SECONDS * 1000;
  } catch {
    return false;
  }
}

function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}
