import { exifOrientation } from './tiff-directory.ts';
import type { Orientation } from './picture-size.ts';
import { Unreadable } from './unreadable.ts';

/** The frame header of a JPEG stream (ITU-T T.81 B.2.2; T.87 for JPEG-LS), and what stands before the first scan. */
export interface JpegHeader {
  readonly width: number;
  readonly height: number;
  /** Bits a sample. */
  readonly precision: number;
  readonly components: number;
  /** Low byte of the frame marker: 0xC0 baseline, 0xC1 extended, 0xC2 progressive, 0xC3 lossless, 0xF7 JPEG-LS. */
  readonly frame: number;
  readonly orientation: Orientation;
  /** Whether the components are red, green and blue rather than luma and chroma; null where the stream does not say. */
  readonly rgb: boolean | null;
}

const damaged = 'The JPEG data are damaged: no picture header was found.';

/** @throws Unreadable, RangeError where the bytes end early. */
export function jpegHeader(bytes: Uint8Array): JpegHeader {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint16(0) !== 0xffd8) throw new Unreadable(damaged);
  let orientation: Orientation = 1;
  let rgb: boolean | null = null;
  let at = 2;
  for (;;) {
    while (view.getUint8(at) === 0xff && view.getUint8(at + 1) === 0xff) at++;
    if (view.getUint8(at) !== 0xff) throw new Unreadable(damaged);
    const marker = view.getUint8(at + 1);
    if (marker === 0xda || marker === 0xd9) throw new Unreadable(damaged);
    const length = view.getUint16(at + 2);
    if (length < 2) throw new Unreadable(damaged);
    const body = bytes.subarray(at + 4, at + 2 + length);
    if (isFrame(marker)) {
      const components = view.getUint8(at + 9);
      const names = Array.from({ length: components }, (_, i) => view.getUint8(at + 10 + 3 * i));
      if (rgb === null && String.fromCharCode(...names) === 'RGB') rgb = true;
      return {
        width: view.getUint16(at + 7),
        height: view.getUint16(at + 5),
        precision: view.getUint8(at + 4),
        components,
        frame: marker,
        orientation,
        rgb,
      };
    }
    if (marker === 0xe1 && startsWith(body, 'Exif\0\0')) orientation = exifOrientation(body);
    if (marker === 0xe0 && startsWith(body, 'JFIF\0')) rgb ??= false;
    if (marker === 0xee && startsWith(body, 'Adobe')) rgb = body[11] === 0;
    at += 2 + length;
  }
}

function isFrame(marker: number): boolean {
  return marker === 0xf7 || (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc);
}

function startsWith(bytes: Uint8Array, text: string): boolean {
  return bytes.length >= text.length && [...text].every((letter, i) => bytes[i] === letter.charCodeAt(0));
}

/**
 * Where the end marker is, or -1. Neither JPEG, JPEG-LS nor JPEG 2000 lets FF D9 occur within coded data, so a stream without it
 * is cut short; decoders fill the missing part with grey instead of saying so.
 */
export function endMarker(bytes: Uint8Array): number {
  for (let at = bytes.length - 2; at >= 0; at--) if (bytes[at] === 0xff && bytes[at + 1] === 0xd9) return at;
  return -1;
}
