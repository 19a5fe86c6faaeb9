import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { build, type BuildOptions } from 'esbuild';
import { beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

const root = join(import.meta.dirname, '..', '..');

/** The bundles as they ship, made from what stands in the checkout now. */
const bundles = new Map<string, Uint8Array>();

beforeAll(async () => {
  const built = Object.values<BuildOptions>(outputs).map(async ({ outfile = '', ...options }) => {
    const { outputFiles = [] } = await build({ ...options, absWorkingDir: root, write: false } as BuildOptions);
    bundles.set(basename(outfile), outputFiles[0]?.contents ?? new Uint8Array());
  });
  await Promise.all(built);
});

/** Thousands of bytes. Each is read and compiled before a case file shows anything. */
const limits: readonly (readonly [string, number])[] = [
  ['extension.cjs', 500],
  ['extension.web.js', 500],
  ['server.cjs', 740],
  // It reads the headers of pictures itself, which the Node server has in a bundle of their own.
  ['server.worker.js', 760],
];

describe('what ships stays small', () => {
  it.each(limits)('%s is smaller than %i KB', (name, limit) => {
    const size = bundles.get(name)?.length ?? 0;
    expect(size).toBeGreaterThan(50_000);
    expect(size / 1000).toBeLessThan(limit);
  });

  // The English of all that is said, from which a language begins, is some 40 KB of it.
  it('the package is smaller than 2.2 MB without pictures', () => {
    const { files } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { files: string[] };
    const packed = [...files.filter((name) => name !== 'dist').flatMap(filesIn), 'package.json']
      .filter((path) => !/\.(?:png|jpe?g|gif|webp)$/.test(path))
      .map((path) => readFileSync(join(root, path)));
    const sizes = [...bundles.values(), ...packed].map((bytes) => deflateRawSync(bytes).length);
    const total = sizes.reduce((sum, size) => sum + size, 0);
    expect(total).toBeGreaterThan(1_000_000);
    expect(total).toBeLessThan(2_200_000);
  });
});

function filesIn(path: string): string[] {
  if (statSync(join(root, path)).isFile()) return [path];
  return readdirSync(join(root, path), { recursive: true, encoding: 'utf8' })
    .map((name) => join(path, name))
    .filter((name) => statSync(join(root, name)).isFile());
}
