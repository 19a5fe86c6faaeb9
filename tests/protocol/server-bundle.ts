import { build, type BuildOptions } from 'esbuild';
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

const root = resolve(import.meta.dirname, '..', '..');
let bundle: Promise<string> | undefined;

/** The server as it ships, with what lies beside it, bundled from what stands in the checkout now. */
export function serverBundle(): Promise<string> {
  bundle ??= bundled();
  return bundle;
}

async function bundled(): Promise<string> {
  const folder = join(root, '.cache', 'protocol');
  mkdirSync(folder, { recursive: true });
  const { server: main, headerThread, headers } = outputs;
  const [server] = await Promise.all([main, headerThread, headers].map((output) => into(folder, output)));
  return server ?? '';
}

async function into(folder: string, { outfile, ...options }: BuildOptions & { outfile: string }): Promise<string> {
  const { outputFiles = [] } = await build({ ...options, absWorkingDir: root, write: false } as BuildOptions);
  const [file] = outputFiles;
  if (!file) throw new Error(`esbuild made no ${outfile}`);
  const path = join(folder, basename(outfile));
  // Several test files bundle at the same time: a half-written file is never seen under the name.
  const own = `${path}.${process.pid}`;
  writeFileSync(own, file.contents);
  renameSync(own, path);
  return path;
}
