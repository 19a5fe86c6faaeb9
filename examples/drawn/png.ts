import { PNG } from 'pngjs';
import type { Picture } from './render.ts';

/**
 * One filter for all rows and Huffman codes alone: zlib's search for repeats differs between processors, its
 * Huffman coding does not, and film grain holds hardly a repeat worth finding.
 */
export function encode({ width, height, grey }: Picture): Buffer {
  const png = new PNG({ width, height });
  png.data = Buffer.from(grey);
  return PNG.sync.write(png, {
    colorType: 0,
    inputColorType: 0,
    bitDepth: 8,
    filterType: 4,
    deflateStrategy: 2,
  });
}

/** The grey values of a picture that `encode` wrote. */
export function greys(bytes: Buffer): Uint8Array {
  const { data } = PNG.sync.read(bytes);
  return Uint8Array.from({ length: data.length / 4 }, (_, i) => data[i * 4] ?? 0);
}
