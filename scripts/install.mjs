// Plain JavaScript for Node 20: this runs before anything is installed.
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, npm, run } from './steps.mjs';

export function isInstalled() {
  // npm writes this file last, so an interrupted install has none.
  const installed = join(ROOT, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return false;
  return statSync(installed).mtimeMs >= statSync(join(ROOT, 'package-lock.json')).mtimeMs;
}

/** @returns {Promise<boolean>} whether the dependencies are there now */
export async function install() {
  if (isInstalled()) return true;
  return run({
    title: 'Installing the dependencies (npm ci)',
    // Warnings left out: Node 20 may only install here, and npm then warns of every package that runs on 24.
    argv: npm('ci', '--loglevel=error', '--no-progress'),
    dots: true,
    limitMinutes: 20,
    remedy: 'see that the npm registry can be reached and that 1 GB of disk is free, then run the same command again',
  });
}

if (process.argv[1] === import.meta.filename) process.exit((await install()) ? 0 : 1);
