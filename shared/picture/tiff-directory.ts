import { Unreadable } from './unreadable.ts';
import { orientationFrom, type Orientation, type StoredSize } from './picture-size.ts';

/** Tags of TIFF 6.0 that are read here; EXIF blocks are small TIFF files and use the same. */
export const tag = {
  width: 256,
  height: 257,
  compression: 259,
  orientation: 274,
  tileWidth: 322,
  tileHeight: 323,
} as const;

const bytesOfType: Readonly<Record<number, number>> = { 1: 1, 3: 2, 4: 4 };

/**
 * First whole-number value of each entry in the first directory, by tag.
 * @throws Unreadable for what is no TIFF, RangeError where the bytes end early.
 */
export function firstDirectory(bytes: Uint8Array): ReadonlyMap<number, number> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const order = view.getUint16(0);
  if (order !== 0x4949 && order !== 0x4d4d) throw new Unreadable('The TIFF file does not begin as a TIFF file must.');
  const little = order === 0x4949;
  const version = view.getUint16(2, little);
  if (version === 43)
    throw new Unreadable('This is a BigTIFF file, which is not read here. Save it as an ordinary TIFF or as PNG.');
  if (version !== 42) throw new Unreadable('The TIFF file does not begin as a TIFF file must.');
  const directory = view.getUint32(4, little);
  const count = view.getUint16(directory, little);
  const values = new Map<number, number>();
  for (let i = 0; i < count; i++) {
    const entry = directory + 2 + 12 * i;
    const size = bytesOfType[view.getUint16(entry + 2, little)];
    const length = view.getUint32(entry + 4, little);
    if (size === undefined || length === 0) continue;
    const at = size * length <= 4 ? entry + 8 : view.getUint32(entry + 8, little);
    if (at + size > bytes.length) continue;
    values.set(
      view.getUint16(entry, little),
      size === 1 ? view.getUint8(at) : size === 2 ? view.getUint16(at, little) : view.getUint32(at, little),
    );
  }
  return values;
}

/** @throws Unreadable, RangeError */
export function tiffSize(bytes: Uint8Array): StoredSize {
  const values = firstDirectory(bytes);
  const width = values.get(tag.width);
  const height = values.get(tag.height);
  if (!width || !height) throw new Unreadable('The TIFF file does not say how large its picture is.');
  return { width, height, orientation: orientationFrom(values.get(tag.orientation)) };
}

/** Orientation in an EXIF block (which may begin with `Exif` and two zeros, as it does in JPEG); upright where the block cannot be read. */
export function exifOrientation(block: Uint8Array): Orientation {
  const tiff = block[0] === 0x45 && block[1] === 0x78 ? block.subarray(6) : block;
  try {
    return orientationFrom(firstDirectory(tiff).get(tag.orientation));
  } catch {
    // A camera's broken EXIF must not cost the picture its size.
    return 1;
  }
}
