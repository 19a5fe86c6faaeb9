import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { t } from '../../shared/language/words.ts';
import { lettersOf } from './font-letters.ts';
import { CommandProblem } from './problem.ts';
import { here } from './here.ts';

/** A picture of points of one drawing. */
interface RenderOptions {
  /** Pixels. */
  readonly width: number;
  /** Pixels to a millimetre of paper, which the file then states; null where it has no size on paper. */
  readonly perMm: number | null;
}

interface Rendered {
  readonly png: Uint8Array;
  readonly lacks: readonly string[];
}

/** The letters that go along, so that a picture looks the same wherever it is made. */
export const rasterLettering = 'DejaVu Serif';
/** The last for what the family lacks, such as Arabic. */
const fonts = ['DejaVuSerif.ttf', 'DejaVuSerif-Bold.ttf', 'DejaVuSerif-Italic.ttf', 'DejaVuSans.ttf'];

/**
 * A drawing that stands alone as a PNG. The renderer knows no file and no network: what is not in the drawing is not in the picture.
 *
 * @returns the picture, and which letters of the drawing are boxes in it, as no font here has them
 * @throws CommandProblem where the parts that it takes are not beside the program.
 */
export async function rasterOf(svg: string, { width, perMm }: RenderOptions): Promise<Rendered> {
  // From the bundle, and from the sources.
  const folder = [join(here, '..', 'raster'), join(here, '..', '..', 'raster')].find((path) => existsSync(path));
  if (folder === undefined)
    throw new CommandProblem(
      t('pictures are made by a whole build of the program only, which this is not; write an .svg'),
    );
  const { initWasm, Resvg } = await import('@resvg/resvg-wasm');
  ready ??= initWasm(readFile(join(folder, 'resvg.wasm')));
  await ready;
  const fontBuffers = await Promise.all(fonts.map((name) => readFile(join(folder, name))));
  const has = fontBuffers.map((font) => lettersOf(font));
  const lacks = [...new Set(wordsIn(svg))].filter((letter) => !has.some((one) => one(letter.codePointAt(0) ?? 0)));
  const drawing = new Resvg(svg, {
    font: { fontBuffers, defaultFontFamily: rasterLettering, serifFamily: rasterLettering },
    fitTo: { mode: 'width', value: width },
  });
  const image = drawing.render();
  try {
    const png = image.asPng();
    return { png: perMm === null ? png : withSize(png, perMm), lacks };
  } finally {
    image.free();
    drawing.free();
  }
}

/** What is lettered in a drawing of ours; a character of XML that is written by name is in every font. */
function wordsIn(svg: string): string {
  return [...svg.matchAll(/<text[^>]*>(.*?)<\/text>/gs)]
    .map(([, inner = '']) => inner.replaceAll(/<[^>]*>|&[a-z0-9#]+;|\s/g, ''))
    .join('');
}

/** Once a process: a second time is an error of the library. */
let ready: Promise<void> | null = null;

/** The signature and the header chunk, which come before any other. */
const headerEnd = 33;

/** With the chunk `pHYs`, pixels to a metre (PNG specification, third edition, 11.3.4.3). */
function withSize(png: Uint8Array, perMm: number): Uint8Array {
  const chunk = Buffer.alloc(21);
  const perMetre = Math.round(perMm * 1000);
  chunk.writeUInt32BE(9, 0);
  chunk.write('pHYs', 4, 'latin1');
  chunk.writeUInt32BE(perMetre, 8);
  chunk.writeUInt32BE(perMetre, 12);
  chunk.writeUInt8(1, 16);
  chunk.writeUInt32BE(crc(chunk.subarray(4, 17)), 17);
  return Buffer.concat([png.subarray(0, headerEnd), chunk, png.subarray(headerEnd)]);
}

/** The check of a chunk (the same, annex D); Node has one of its own only from 20.15 on. */
function crc(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit++) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return (rest ^ 0xffffffff) >>> 0;
}
