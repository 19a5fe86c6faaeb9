import { accessSync, constants, mkdirSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { runCommand } from './command.ts';
import { cacheHome } from './versions.ts';

/** The first of the programs that is there; earlier names are preferred. */
export function onPath(names: readonly string[]): string | null {
  const folders = ['/usr/bin', ...(process.env['PATH'] ?? '').split(delimiter)];
  for (const name of names) {
    for (const folder of folders) {
      const candidate = join(folder, name);
      if (folder !== '' && executable(candidate)) return candidate;
    }
  }
  return null;
}

export function mayInstall(): boolean {
  return process.getuid?.() === 0 && executable('/usr/bin/apt-get');
}

export async function install(packages: readonly string[]): Promise<void> {
  const log = join(cacheHome(), 'log-apt.txt');
  mkdirSync(cacheHome(), { recursive: true });
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const remedy = 'see that the package mirror can be reached, or install them yourself and run this again';
  await runCommand({
    title: 'reading the Debian package list',
    argv: ['apt-get', '-o', 'DPkg::Lock::Timeout=300', 'update'],
    env,
    log,
    limitSeconds: 300,
    remedy,
  });
  await runCommand({
    title: `installing ${packages.join(' and ')} from Debian`,
    argv: ['apt-get', '-o', 'DPkg::Lock::Timeout=300', 'install', '-y', '--no-install-recommends', ...packages],
    env,
    log,
    limitSeconds: 900,
    remedy,
  });
}

export function executable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
