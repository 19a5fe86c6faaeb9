import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { executable } from './debian.ts';
import { cacheHome } from './versions.ts';

export type Unpacked =
  | { readonly folder: string; readonly version: string; readonly why: null }
  | { readonly folder: null; readonly why: string };

/**
 * The files of a Debian package, unpacked into the user's cache folder and not installed: no root is needed. Fetched once for each
 * version; without a network the version that is there already is taken. Where there is none, the reason.
 */
export function unpackedPackage(name: string): Unpacked {
  const home = join(cacheHome(), 'debian');
  mkdirSync(home, { recursive: true });
  const version = offered(name);
  const had = readdirSync(home)
    .filter((entry) => entry.startsWith(`${name}_`))
    .sort();
  const wanted = version === null ? had.at(-1) : `${name}_${plain(version)}`;
  if (wanted !== undefined && had.includes(wanted)) return done(home, wanted);
  if (!executable('/usr/bin/apt-get') || !executable('/usr/bin/dpkg-deb'))
    return { folder: null, why: `${name} is had from Debian, and this system has no apt-get` };
  const work = mkdtempSync(join(home, '.work-'));
  try {
    run('apt-get', ['download', name], work);
    const file = readdirSync(work).find((entry) => entry.endsWith('.deb'));
    if (file === undefined) throw new Error('nothing came');
    // NAME_VERSION_ARCHITECTURE.deb, its colon written as %3a.
    const key = `${name}_${plain(decodeURIComponent(file.split('_')[1] ?? ''))}`;
    run('dpkg-deb', ['-x', file, 'files'], work);
    if (!existsSync(join(home, key))) renameSync(join(work, 'files'), join(home, key));
    return done(home, key);
  } catch (cause) {
    const [line = ''] = String(cause instanceof Error ? cause.message : cause)
      .split('\n')
      .filter((each) => each.startsWith('E:'));
    return { folder: null, why: `${name} could not be fetched from Debian${line && ` (${line.slice(3)})`}` };
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

function done(home: string, key: string): Unpacked {
  return { folder: join(home, key), version: key.slice(key.indexOf('_') + 1), why: null };
}

function plain(version: string): string {
  return version.replaceAll(/[^\w.+~-]/g, '-');
}

/** The version that the package lists of this system name; where they are empty and this user may, they are fetched first. */
function offered(name: string): string | null {
  const asked = (): string | null => {
    try {
      return /^Version: (.+)$/m.exec(run('apt-cache', ['show', '--no-all-versions', name]))?.[1] ?? null;
    } catch {
      return null;
    }
  };
  const found = asked();
  if (found !== null || process.getuid?.() !== 0) return found;
  try {
    run('apt-get', ['update']);
  } catch {
    return null;
  }
  return asked();
}

function run(program: string, args: readonly string[], cwd?: string): string {
  return execFileSync(program, args, {
    cwd,
    encoding: 'utf8',
    timeout: 100_000,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, LC_ALL: 'C.UTF-8' },
  });
}
