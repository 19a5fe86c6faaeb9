import { execFileSync } from 'node:child_process';
import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { runCommand } from './command.ts';
import { Failure } from './failure.ts';
import { cacheHome } from './versions.ts';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

export function findChromium(): string | null {
  const named = process.env['CHROMIUM_PATH'];
  if (named !== undefined && named !== '') {
    if (!executable(named)) {
      throw new Failure(
        `CHROMIUM_PATH names ${named}, which is not an executable file`,
        'set CHROMIUM_PATH to a Chromium or Chrome that is there, or unset it to have one looked for',
      );
    }
    return named;
  }
  const folders = ['/usr/bin', ...(process.env['PATH'] ?? '').split(delimiter)];
  for (const name of NAMES) {
    for (const folder of folders) {
      const candidate = join(folder, name);
      if (folder !== '' && executable(candidate)) return candidate;
    }
  }
  return null;
}

/** Finds a Chromium and a font to draw with; installs them where this user may. */
export async function ensureChromium(): Promise<string> {
  const found = findChromium();
  const missing = [...(found === null ? ['chromium'] : []), ...(hasFont() ? [] : ['fonts-dejavu-core'])];
  if (missing.length > 0) {
    if (mayInstall()) await install(missing);
    else if (found !== null)
      console.log('  no font found: screenshots will be hard to read (install fonts-dejavu-core)');
  }
  const chromium = found ?? findChromium();
  if (chromium === null) {
    throw new Failure(
      'no Chromium found, and it can only be installed here as root on Debian or Ubuntu',
      'install Chromium or Chrome (Debian: sudo apt-get install chromium), or set CHROMIUM_PATH to one',
    );
  }
  return chromium;
}

function mayInstall(): boolean {
  return process.getuid?.() === 0 && executable('/usr/bin/apt-get');
}

async function install(packages: string[]): Promise<void> {
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

function hasFont(): boolean {
  try {
    return (
      execFileSync('fc-list', [':lang=en', 'file'], {
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      }) !== ''
    );
  } catch {
    // Without fontconfig's tool, the folder is the next best witness.
    return existsSync('/usr/share/fonts/truetype') || process.platform !== 'linux';
  }
}

function executable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
