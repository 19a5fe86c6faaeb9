import { t } from '../language/words.ts';
import { readWithin, whole, type HeaderReader } from './header-reader.ts';
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

const damaged = (): string => t('The JPEG data are damaged: no picture header was found.');

/** More than any writer makes: a large colour profile or description takes some hundred. Filling before a marker counts as well. */
const mostSteps = 2 ** 14;

/** @throws Unreadable, RangeError where the bytes end early. */
export function* readJpegHeader(): HeaderReader<JpegHeader> {
  if ((yield* whole(0, 2)).getUint16(0) !== 0xffd8) throw new Unreadable(damaged());
  let orientation: Orientation = 1;
  let rgb: boolean | null = null;
  let at = 2;
  for (let steps = 0; steps < mostSteps; steps++) {
    const head = yield* whole(at, 2);
    const marker = head.getUint8(1);
    if (head.getUint8(0) !== 0xff) throw new Unreadable(damaged());
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0xda || marker === 0xd9) throw new Unreadable(damaged());
    const length = (yield* whole(at + 2, 2)).getUint16(0);
    if (length < 2) throw new Unreadable(damaged());
    if (isFrame(marker)) {
      const view = yield* whole(at + 4, 6);
      const components = view.getUint8(5);
      const names = yield* whole(at + 10, 3 * components);
      if (rgb === null && components === 3 && [0, 1, 2].every((i) => names.getUint8(3 * i) === 'RGB'.charCodeAt(i)))
        rgb = true;
      return {
        width: view.getUint16(3),
        height: view.getUint16(1),
        precision: view.getUint8(0),
        components,
        frame: marker,
        orientation,
        rgb,
      };
    }
    if (marker === 0xe0 || marker === 0xe1 || marker === 0xee) {
      const body = yield { start: at + 4, length: length - 2 };
      if (marker === 0xe1 && startsWith(body, 'Exif\0\0')) orientation = exifOrientation(body);
      if (marker === 0xe0 && startsWith(body, 'JFIF\0')) rgb ??= false;
      if (marker === 0xee && startsWith(body, 'Adobe')) rgb = body[11] === 0;
    }
    at += 2 + length;
  }
  throw new Unreadable(damaged());
}

/** The same of a stream in memory. @throws Unreadable, RangeError */
export function jpegHeader(bytes: Uint8Array): JpegHeader {
  return readWithin(bytes, readJpegHeader());
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
