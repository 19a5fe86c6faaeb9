import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { executable, install, mayInstall, onPath } from './debian.ts';
import { Failure } from './failure.ts';

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
  return onPath(NAMES);
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
