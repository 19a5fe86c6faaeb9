// What the bundle that writes PDF is made of otherwise than its sources. It holds its type. The files are unpacked and packed again as one with brotli, which Node reads
// itself: a third less. What fontkit brings to read brotli is then not needed, and is as large as all the rest of it.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants, inflateSync } from 'node:zlib';
import { fontFiles } from '../src/pdf/font-files.ts';

const modules = join(import.meta.dirname, '..', 'node_modules');

export const pdfBundle = {
  name: 'pdf-bundle',
  setup({ onLoad, onResolve }) {
    pngAtOnce(onLoad);
    const names = [...new Set(Object.values(fontFiles).flat())];
    const inPackages = names.map((name) => join(modules, name));
    onLoad({ filter: /[\\/]src[\\/]pdf[\\/]font-bytes\.ts$/ }, () => ({
      contents: [
        ...inPackages.map((path, index) => `import name${index} from ${JSON.stringify(path)};`),
        "import packed from 'fonts.packed';",
        "import { brotliDecompressSync } from 'node:zlib';",
        `const lengths = ${JSON.stringify(inPackages.map((path) => unpacked(path).length))};`,
        `const names = [${names.map((_, index) => `name${index}`).join(', ')}];`,
        'const all = new Uint8Array(brotliDecompressSync(packed));',
        'export const fontBytes = {};',
        'names.reduce((at, name, i) => { fontBytes[name] = all.slice(at, at + lengths[i]); return at + lengths[i]; }, 0);',
      ].join('\n'),
      loader: 'js',
    }));
    // Each file is a module that says its name, so that the notices and the bill of materials know of it.
    onLoad({ filter: /\.woff$/ }, ({ path }) => ({
      contents: `export default ${JSON.stringify(names[inPackages.indexOf(path)])};`,
      loader: 'js',
    }));
    onResolve({ filter: /\.packed$/ }, ({ path }) => ({ path, namespace: 'packed' }));
    onLoad({ filter: /\.packed$/, namespace: 'packed' }, () => ({
      contents: brotliCompressSync(Buffer.concat(inPackages.map(unpacked)), {
        params: {
          [constants.BROTLI_PARAM_LGWIN]: constants.BROTLI_MAX_WINDOW_BITS,
          // The best is no smaller and takes twice as long.
          [constants.BROTLI_PARAM_QUALITY]: 10,
        },
      }),
      loader: 'binary',
    }));
    onResolve({ filter: /^node:zlib$/ }, ({ path }) => ({ path, external: true }));
    onResolve({ filter: /^brotli\/decompress\.js$/ }, () => ({ path: 'brotli', namespace: 'left-out' }));
    onLoad({ filter: /^brotli$/, namespace: 'left-out' }, () => ({
      contents: "export default () => { throw new Error('no type of this form ships'); };",
    }));
  },
};

/** For a browser png-js unpacks pictures in a worker of the browser, which Node has none of. What comes here was looked at before. */
function pngAtOnce(onLoad) {
  onLoad({ filter: /[\\/]png-js[\\/]lib[\\/]png-js\.browser\.js$/ }, ({ path }) => {
    const text = readFileSync(path, 'utf8');
    const way = "import { unzlib } from 'fflate';";
    if (!text.includes(way)) throw new Error(`${path} is not in a shape that scripts/pdf-bundle.mjs knows`);
    return {
      contents: text.replace(
        way,
        "import { unzlibSync } from 'fflate';\nconst unzlib = (packed, then) => then(null, unzlibSync(packed));",
      ),
      loader: 'js',
    };
  });
}

/** A file of type in the form WOFF 1.0 (W3C, 2012) as the OpenType file that it was made of. */
function unpacked(path) {
  const woff = readFileSync(path);
  if (woff.toString('latin1', 0, 4) !== 'wOFF') throw new Error(`${path} is no WOFF file`);
  const count = woff.readUInt16BE(12);
  const head = Buffer.alloc(12 + 16 * count);
  woff.copy(head, 0, 4, 8);
  const power = Math.floor(Math.log2(count));
  head.writeUInt16BE(count, 4);
  head.writeUInt16BE(16 * 2 ** power, 6);
  head.writeUInt16BE(power, 8);
  head.writeUInt16BE(16 * (count - 2 ** power), 10);
  const parts = [head];
  let at = head.length;
  for (let index = 0; index < count; index += 1) {
    const entry = 44 + 20 * index;
    const [offset, packed, length] = [4, 8, 12].map((field) => woff.readUInt32BE(entry + field));
    const bytes = woff.subarray(offset, offset + packed);
    const table = packed < length ? inflateSync(bytes) : bytes;
    woff.copy(head, 12 + 16 * index, entry, entry + 4);
    head.writeUInt32BE(woff.readUInt32BE(entry + 16), 12 + 16 * index + 4);
    head.writeUInt32BE(at, 12 + 16 * index + 8);
    head.writeUInt32BE(length, 12 + 16 * index + 12);
    // Tables begin at multiples of four.
    const padded = Buffer.alloc(Math.ceil(length / 4) * 4);
    table.copy(padded);
    parts.push(padded);
    at += padded.length;
  }
  return Buffer.concat(parts);
}
