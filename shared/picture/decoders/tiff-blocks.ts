import { BaseDecoder, addDecoder } from 'geotiff';
import { inflate } from '../bounded-inflate.ts';
import { mostPixels } from '../size-guard.ts';
import { unpackLzw } from './lzw.ts';

/** Bytes that a strip or tile of these measures unpacks to, as far as its header can be believed. */
function sizeOf({ parameters: { tileWidth, tileHeight, bitsPerSample, planarConfiguration } }: BaseDecoder): number {
  const bits = typeof bitsPerSample === 'number' ? [bitsPerSample] : Array.from(bitsPerSample as ArrayLike<number>);
  const perPixel = planarConfiguration === 2 ? Math.max(...bits) : bits.reduce((sum, each) => sum + each, 0);
  return Math.ceil((Math.min(tileWidth * tileHeight, mostPixels) * perPixel) / 8) + tileHeight;
}

class BoundedLzw extends BaseDecoder {
  override decodeBlock(buffer: ArrayBufferLike): ArrayBufferLike {
    return unpackLzw(new Uint8Array(buffer), Math.min(sizeOf(this), mostPixels * 8)).slice().buffer;
  }
}

class BoundedDeflate extends BaseDecoder {
  override decodeBlock(buffer: ArrayBufferLike): ArrayBufferLike {
    // A strip may be followed by filling, but not by another picture.
    const most = Math.min(2 * sizeOf(this) + 65536, mostPixels * 8);
    return inflate(
      'zlib',
      new Uint8Array(buffer),
      most,
      'The TIFF file unpacks to more than its picture holds; it is damaged.',
    ).slice().buffer;
  }
}

/**
 * Puts these in the place of the library's own, which at a damaged LZW strip run in a circle until the memory is full, and unpack
 * as much as a deflated strip asks for.
 */
export function boundTiffDecoders(): void {
  addDecoder(5, () => Promise.resolve(BoundedLzw));
  addDecoder([8, 32946], () => Promise.resolve(BoundedDeflate));
}
