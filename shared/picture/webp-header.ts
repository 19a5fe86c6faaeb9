import { exifOrientation } from './tiff-directory.ts';
import type { Orientation, StoredSize } from './picture-size.ts';
import { Unreadable } from './unreadable.ts';

const damaged = 'The WebP file is damaged: it does not say how large its picture is.';

/** Size and EXIF orientation of a WebP file (RFC 9649, section 2). @throws Unreadable, RangeError */
export function webpSize(bytes: Uint8Array): StoredSize {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  switch (String.fromCharCode(...bytes.subarray(12, 16))) {
    case 'VP8 ':
      if (view.getUint8(23) !== 0x9d || view.getUint16(24) !== 0x012a) throw new Unreadable(damaged);
      return { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff, orientation: 1 };
    case 'VP8L': {
      if (view.getUint8(20) !== 0x2f) throw new Unreadable(damaged);
      const packed = view.getUint32(21, true);
      return { width: (packed & 0x3fff) + 1, height: ((packed >>> 14) & 0x3fff) + 1, orientation: 1 };
    }
    case 'VP8X':
      return {
        width: threeBytes(view, 24) + 1,
        height: threeBytes(view, 27) + 1,
        orientation: orientationOf(bytes, view),
      };
    default:
      throw new Unreadable(damaged);
  }
}

function threeBytes(view: DataView, at: number): number {
  return view.getUint16(at, true) + view.getUint8(at + 2) * 0x10000;
}

function orientationOf(bytes: Uint8Array, view: DataView): Orientation {
  for (let at = 12; at + 8 <= bytes.length;) {
    const length = view.getUint32(at + 4, true);
    if (view.getUint32(at) === 0x45584946) return exifOrientation(bytes.subarray(at + 8, at + 8 + length));
    at += 8 + length + (length % 2);
  }
  return 1;
}
