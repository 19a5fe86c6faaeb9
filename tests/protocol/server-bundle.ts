import { build, type BuildOptions } from 'esbuild';
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

const root = resolve(import.meta.dirname, '..', '..');
let bundle: Promise<string> | undefined;

/** The server as it ships, one file, bundled from what stands in the checkout now. */
export function serverBundle(): Promise<string> {
  bundle ??= bundled();
  return bundle;
}

async function bundled(): Promise<string> {
  const { outfile: _, ...options } = outputs.server;
  const { outputFiles = [] } = await build({ ...options, absWorkingDir: root, write: false } as BuildOptions);
  const [file] = outputFiles;
  if (!file) throw new Error('esbuild made no file of server/node.ts');
  const folder = join(root, '.cache', 'protocol');
  mkdirSync(folder, { recursive: true });
  const path = join(folder, 'server.cjs');
  // Several test files bundle at the same time: a half-written file is never seen under the name.
  const own = `${path}.${process.pid}`;
  writeFileSync(own, file.contents);
  renameSync(own, path);
  return path;
}
