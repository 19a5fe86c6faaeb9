import { whole, type HeaderReader } from './header-reader.ts';
import { exifOrientation, mostExif } from './tiff-directory.ts';
import type { Orientation, StoredSize } from './picture-size.ts';
import { Unreadable } from './unreadable.ts';

const damaged = 'The WebP file is damaged: it does not say how large its picture is.';
/** A picture that moves has a chunk for each frame; behind so many nobody looks for the orientation. */
const mostChunks = 2 ** 12;

/** Size and EXIF orientation of a WebP file (RFC 9649, section 2). @throws Unreadable, RangeError */
export function* webpSize(): HeaderReader<StoredSize> {
  const name = yield { start: 12, length: 4 };
  switch (String.fromCharCode(...name)) {
    case 'VP8 ': {
      const view = yield* whole(23, 7);
      if (view.getUint8(0) !== 0x9d || view.getUint16(1) !== 0x012a) throw new Unreadable(damaged);
      return { width: view.getUint16(3, true) & 0x3fff, height: view.getUint16(5, true) & 0x3fff, orientation: 1 };
    }
    case 'VP8L': {
      const view = yield* whole(20, 5);
      if (view.getUint8(0) !== 0x2f) throw new Unreadable(damaged);
      const packed = view.getUint32(1, true);
      return { width: (packed & 0x3fff) + 1, height: ((packed >>> 14) & 0x3fff) + 1, orientation: 1 };
    }
    case 'VP8X': {
      const view = yield* whole(24, 6);
      return { width: threeBytes(view, 0) + 1, height: threeBytes(view, 3) + 1, orientation: yield* orientationOf() };
    }
    default:
      throw new Unreadable(damaged);
  }
}

function threeBytes(view: DataView, at: number): number {
  return view.getUint16(at, true) + view.getUint8(at + 2) * 0x10000;
}

function* orientationOf(): HeaderReader<Orientation> {
  let at = 12;
  for (let chunks = 0; chunks < mostChunks; chunks++) {
    const head = yield { start: at, length: 8 };
    if (head.length < 8) return 1;
    const view = new DataView(head.buffer, head.byteOffset, 8);
    const length = view.getUint32(4, true);
    if (view.getUint32(0) === 0x45584946)
      return exifOrientation(yield { start: at + 8, length: Math.min(length, mostExif) });
    at += 8 + length + (length % 2);
  }
  return 1;
}
