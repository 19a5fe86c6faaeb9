import { mkdirSync, readdirSync, renameSync } from 'node:fs';
import { basename, join } from 'node:path';
import { Failure } from './failure.ts';
import { removeFolder } from './leftovers.ts';
import { withLock } from './lock.ts';
import { cacheHome } from './versions.ts';

/** A folder of the cache, built by the first that needs it; `read` gives null where it is not there or not whole. */
export async function builtOnce<T>(
  folder: string,
  read: (folder: string) => T | null,
  build: (folder: string) => Promise<void>,
): Promise<T> {
  const ready = read(folder);
  if (ready !== null) return ready;
  return withLock(`${folder}.lock`, 1800, async () => {
    const meanwhile = read(folder);
    if (meanwhile !== null) return meanwhile;
    console.log(`Setting up the test host in ${folder}`);
    removeUnfinished(folder);
    // Built beside its place and renamed when whole: an interrupted run never looks like a finished one.
    const building = `${folder}.building-${process.pid}`;
    mkdirSync(building, { recursive: true });
    await build(building);
    removeFolder(folder);
    renameSync(building, folder);
    const made = read(folder);
    if (made === null)
      throw new Failure('the finished set-up cannot be read back', `delete ${folder} and run this again`);
    return made;
  });
}

function removeUnfinished(folder: string): void {
  const home = cacheHome();
  for (const name of readdirSync(home)) {
    if (!name.startsWith(`${basename(folder)}.building-`)) continue;
    try {
      removeFolder(join(home, name));
    } catch {
      // What a killed run had started may still write there; the next set-up clears it.
    }
  }
}
