import { build, type BuildOptions } from 'esbuild';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { spawnSync } from 'node:child_process';
import { createContext, runInContext } from 'node:vm';
import { afterAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
import { showableInThread } from '../../disk/decoder-thread.ts';
import type { DecoderAnswer } from '../../src/extension/worker-decoder.ts';
import { encapsulated, pictureFile } from './picture-dicom-writer.ts';
import { encodedFrame, type Encoding } from './picture-frame-encoders.ts';
import { knownValues } from './picture-known.ts';
import { tiffFile } from './picture-tiff-writer.ts';

const root = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'ungula-picture-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What a bundle needs to be told beside the usual, and nothing else. */
const withoutNode: BuildOptions = {
  platform: 'browser',
  external: ['fs', 'path'],
  alias: { zlib: join(root, 'shared/picture/absent-zlib.ts') },
};
const require =
  "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url); const __dirname = import.meta.dirname;";

async function bundled(source: string, options: BuildOptions): Promise<string> {
  const { outputFiles = [] } = await build({
    stdin: { contents: source, resolveDir: root, loader: 'ts' },
    bundle: true,
    minify: true,
    write: false,
    legalComments: 'none',
    logLevel: 'silent',
    target: 'es2022',
    ...options,
  });
  const [file] = outputFiles;
  if (!file) throw new Error('nothing was bundled');
  return file.text;
}

const all = `
  export { readPicture } from './shared/picture/read-picture.ts';
  import { decodeDicom } from './shared/picture/decode-dicom.ts';
  import { decodeTiff } from './shared/picture/decode-tiff.ts';
  import { rasterPng } from './shared/picture/raster-png.ts';
  globalThis.pngOf = async (kind, bytes) => {
    const { raster, problem } = await (kind === 'tiff' ? decodeTiff : decodeDicom)(Uint8Array.from(bytes));
    return raster ? rasterPng(raster).length : problem;
  };
`;

const width = 20;
const height = 14;
const values = Uint8Array.from(knownValues(width, height, 8));

async function files(): Promise<readonly (readonly ['dicom' | 'tiff', Uint8Array])[]> {
  const coded: readonly [string, Encoding][] = [
    ['1.2.840.10008.1.2.5', 'rle'],
    ['1.2.840.10008.1.2.4.50', 'jpeg'],
    ['1.2.840.10008.1.2.4.70', 'jpeg-lossless'],
    ['1.2.840.10008.1.2.4.80', 'jpeg-ls'],
    ['1.2.840.10008.1.2.4.90', 'jpeg-2000'],
  ];
  const dicom = coded.map(
    async ([uid, encoding]) =>
      [
        'dicom',
        pictureFile(
          uid,
          { width, height, bitsAllocated: 8 },
          encapsulated([await encodedFrame(encoding, { width, height, bitsStored: 8, values })]),
          'OB',
        ),
      ] as const,
  );
  const deflated = [
    'dicom',
    pictureFile('1.2.840.10008.1.2.1.99', { width, height, bitsAllocated: 8 }, values, 'OB'),
  ] as const;
  return [
    ...(await Promise.all(dicom)),
    deflated,
    ['tiff', tiffFile({ width, height, bits: 8, photometric: 1, compression: 'lzw', bytes: values })],
  ];
}

describe('bundles of the picture reader', () => {
  it('the header reader carries no decoder and stays small', async () => {
    const text = await bundled("export { readPicture } from './shared/picture/read-picture.ts';", {
      ...withoutNode,
      format: 'esm',
    });
    expect(text.length / 1024).toBeLessThan(60);
    for (const trace of ['OpenJPEG', 'CharLS', 'JpegImage', 'asm.js']) expect(text).not.toContain(trace);
  });

  it('in a page or worker: no Node, no network, no code made from text', async () => {
    const text = await bundled(all, { ...withoutNode, format: 'iife' });
    const page: Record<string, unknown> = {
      WorkerGlobalScope: Object,
      location: { href: 'https://case.example/page.js' },
      TextDecoder,
      TextEncoder,
      URL,
      setTimeout,
      performance,
      console: { log: forbidden, warn: forbidden, error: forbidden },
    };
    page['self'] = page;
    const context = createContext(page, { codeGeneration: { strings: false, wasm: false } });
    runInContext(text, context);
    for (const [kind, bytes] of await files()) expect(await (page['pngOf'] as PngOf)(kind, bytes)).toBeGreaterThan(50);
  });

  it('as the decoder worker ships: a question in, a picture out', async () => {
    const { outfile: _, ...options } = outputs.decoderWorker;
    const built = await build({ ...options, absWorkingDir: root, write: false } as BuildOptions);
    const asked: ((event: { data: unknown }) => void)[] = [];
    let answered: (answer: DecoderAnswer) => void = () => {};
    const worker: Record<string, unknown> = {
      WorkerGlobalScope: Object,
      location: { href: 'https://case.example/worker.js' },
      TextDecoder,
      TextEncoder,
      URL,
      setTimeout,
      performance,
      console: { log: forbidden, warn: forbidden, error: forbidden },
      addEventListener: (_kind: string, listen: (event: { data: unknown }) => void) => asked.push(listen),
      postMessage: (answer: DecoderAnswer) => answered(structuredClone(answer)),
    };
    worker['self'] = worker;
    const context = createContext(worker, { codeGeneration: { strings: false, wasm: false } });
    runInContext(built.outputFiles?.[0]?.text ?? '', context);
    // What is posted to a worker arrives as the worker's own kind of array.
    const own = runInContext('Uint8Array', context) as typeof Uint8Array;
    for (const [index, [, bytes]] of (await files()).entries()) {
      const answer = new Promise<DecoderAnswer>((resolve) => (answered = resolve));
      for (const listen of asked) listen({ data: { id: index, bytes: own.from(bytes) } });
      expect(await answer).toMatchObject({ id: index, shown: { mime: 'image/png', width, height } });
    }
  });

  it('as the thread ships, which runs that worker under Node', async () => {
    for (const options of [outputs.decoderThread, outputs.decoderWorker] as BuildOptions[])
      await build({ ...options, absWorkingDir: root, outfile: join(folder, basename(options.outfile ?? '')) });
    for (const [, bytes] of await files())
      expect(await showableInThread(join(folder, 'picture-decoder.thread.cjs'), bytes)).toMatchObject({
        mime: 'image/png',
        width,
        height,
      });
  });

  it.each([
    ['cjs', 'decode.cjs', ''],
    ['esm', 'decode.mjs', require],
  ] as const)('in Node as %s', async (format, name, banner) => {
    const input = (await files()).map(([kind, bytes]) => [kind, [...bytes]]);
    const text = await bundled(
      `${all}\nfor (const [kind, bytes] of ${JSON.stringify(input)}) globalThis.pngOf(kind, bytes).then((png) => console.log(typeof png === 'number' && png > 50 ? 'shown' : png));`,
      { platform: 'node', format, banner: { js: banner } },
    );
    writeFileSync(join(folder, name), text);
    const { stdout, stderr, status } = spawnSync(process.execPath, [join(folder, name)], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout.trim().split('\n')).toEqual(input.map(() => 'shown'));
  });
});

type PngOf = (kind: string, bytes: Uint8Array) => Promise<number | string>;

function forbidden(...words: unknown[]): void {
  throw new Error(`the bundle wrote to the console: ${words.join(' ')}`);
}
