import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { build, type BuildOptions, type Metafile } from 'esbuild';
import { beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { shipped } from '../../esbuild.mjs';

const root = join(import.meta.dirname, '..', '..');

/** The bundles as they ship, made from what stands in the checkout now. */
const bundles = new Map<string, Uint8Array>();
const parts = new Map<string, Pick<Metafile['outputs'][string], 'imports' | 'entryPoint'>>();

beforeAll(async () => {
  const built = Object.values<BuildOptions>(shipped).map(async (options) => {
    const { outputFiles, metafile } = await build({ ...options, absWorkingDir: root, write: false, metafile: true });
    for (const { path, contents } of outputFiles) bundles.set(basename(path), contents);
    for (const [path, { imports, entryPoint }] of Object.entries(metafile.outputs))
      parts.set(basename(path), { imports, entryPoint });
  });
  await Promise.all(built);
});

/** Thousands of bytes. Each is read and compiled before a case file shows anything. */
const limits: readonly (readonly [string, number])[] = [
  ['extension.cjs', 500],
  ['extension.web.js', 500],
  // It reads the headers of pictures and makes pages itself, which under Node other bundles do.
  ['server.worker.js', 1050],
  // A third of it is type; it is loaded where somebody asks for a PDF.
  ['page-pdf.mjs', 900],
];

/** Bundles with all that they load at once. */
function loadedWith(...first: readonly string[]): ReadonlySet<string> {
  const loaded = new Set(first);
  // A set that grows is walked to its end.
  for (const name of loaded)
    for (const { path, kind, external } of parts.get(name)?.imports ?? [])
      if (kind === 'import-statement' && external !== true) loaded.add(basename(path));
  return loaded;
}

/** In thousands of bytes. */
const sizeOf = (names: Iterable<string>): number =>
  [...names].reduce((sum, name) => sum + (bundles.get(name)?.length ?? Number.NaN), 0) / 1000;

describe('what ships stays small', () => {
  it('the server is smaller than 870 KB with the piece that it shares with the command line', () => {
    expect(parts.get('server.js')?.entryPoint).toBe('server/node.ts');
    const size = sizeOf(loadedWith('server.js'));
    expect(size).toBeGreaterThan(500);
    expect(size).toBeLessThan(870);
  });

  it.each(limits)('%s is smaller than %i KB', (name, limit) => {
    const size = bundles.get(name)?.length ?? 0;
    expect(size).toBeGreaterThan(50_000);
    expect(size / 1000).toBeLessThan(limit);
  });

  it('what the page loads before it shows a film is smaller than 306 KB, without placing, the course, agreement, lessons and plans side by side', () => {
    const [start = ''] = [...parts].find(([, { entryPoint }]) => entryPoint === 'src/preview/start.tsx') ?? [];
    const loaded = loadedWith('preview.js', start);
    const size = sizeOf(loaded);
    expect(size).toBeGreaterThan(150);
    expect(size).toBeLessThan(306);
    const apart = (entry: string): string => [...parts].find(([, { entryPoint }]) => entryPoint === entry)?.[0] ?? '';
    for (const entry of [
      'src/preview/placing/placing-view.tsx',
      'src/preview/course/course-part.ts',
      'src/preview/agreement/agreement-part.ts',
    ]) {
      expect(bundles.get(apart(entry))?.length).toBeGreaterThan(20_000);
      expect(loaded).not.toContain(apart(entry));
    }
    for (const entry of ['src/preview/lesson-view.tsx', 'src/preview/plans-view.tsx']) {
      expect(bundles.get(apart(entry))?.length).toBeGreaterThan(1000);
      expect(loaded).not.toContain(apart(entry));
    }
  });

  // The English of all that is said, from which a language begins, is some 40 KB of it.
  // What writes PDF is another 0.4 MB.
  it('the package is smaller than 2.9 MB without pictures', () => {
    const { files } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { files: string[] };
    const packed = [...files.filter((name) => name !== 'dist').flatMap(filesIn), 'package.json']
      .filter((path) => !/\.(?:png|jpe?g|gif|webp)$/.test(path))
      .map((path) => readFileSync(join(root, path)));
    const sizes = [...bundles.values(), ...packed].map((bytes) => deflateRawSync(bytes).length);
    const total = sizes.reduce((sum, size) => sum + size, 0);
    expect(total).toBeGreaterThan(1_000_000);
    // The German words are 0.12 MB of it.
    expect(total).toBeLessThan(2_900_000);
  });
});

function filesIn(path: string): string[] {
  if (statSync(join(root, path)).isFile()) return [path];
  return readdirSync(join(root, path), { recursive: true, encoding: 'utf8' })
    .map((name) => join(path, name))
    .filter((name) => statSync(join(root, name)).isFile());
}
