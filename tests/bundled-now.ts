import { build, type BuildOptions } from 'esbuild';
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');

export type Output = BuildOptions & { readonly outfile: string };

/**
 * A bundle as it ships, made from what stands in the checkout now: `dist` may be of any age. It lies below the checkout, whose
 * package.json makes it an ES module. `folder`: within `.cache`.
 */
export async function bundledNow(folder: string, { outfile, ...options }: Output): Promise<string> {
  const into = join(root, '.cache', folder);
  mkdirSync(into, { recursive: true });
  const { outputFiles = [] } = await build({ ...options, absWorkingDir: root, write: false });
  const [file] = outputFiles;
  if (!file) throw new Error(`esbuild made no ${outfile}`);
  const path = join(into, basename(outfile));
  // Several test files bundle at the same time: a half-written file is never seen under the name.
  const own = `${path}.${process.pid}`;
  writeFileSync(own, file.contents);
  renameSync(own, path);
  return path;
}
