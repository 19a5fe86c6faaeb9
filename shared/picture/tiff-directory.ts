import { t } from '../language/words.ts';
import { readWithin, whole, type HeaderReader, type PieceWanted } from './header-reader.ts';
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
const wanted: ReadonlySet<number> = new Set(Object.values(tag));

/** Bytes of an EXIF block that are looked at: JPEG cannot hold a longer one, and the orientation stands in its beginning. */
export const mostExif = 2 ** 16;

/**
 * First whole number of those entries of the first directory that are read here, by tag; where a tag stands twice, the last.
 * Further directories are not followed.
 * @throws Unreadable for what is no TIFF, RangeError where the bytes end early.
 */
export function* readFirstDirectory(): HeaderReader<ReadonlyMap<number, number>> {
  const start = yield* whole(0, 8);
  const order = start.getUint16(0);
  if (order !== 0x4949 && order !== 0x4d4d)
    throw new Unreadable(t('The TIFF file does not begin as a TIFF file must.'));
  const little = order === 0x4949;
  const version = start.getUint16(2, little);
  if (version === 43)
    throw new Unreadable(t('This is a BigTIFF file, which is not read here. Save it as an ordinary TIFF or as PNG.'));
  if (version !== 42) throw new Unreadable(t('The TIFF file does not begin as a TIFF file must.'));
  const directory = start.getUint32(4, little);
  const count = (yield* whole(directory, 2)).getUint16(0, little);
  const entries = yield* whole(directory + 2, 12 * count);
  const places = new Map<number, PieceWanted>();
  for (let entry = 0; entry < 12 * count; entry += 12) {
    const name = entries.getUint16(entry, little);
    const size = bytesOfType[entries.getUint16(entry + 2, little)];
    const length = entries.getUint32(entry + 4, little);
    if (!wanted.has(name) || size === undefined || length === 0) continue;
    const at = size * length <= 4 ? directory + 2 + entry + 8 : entries.getUint32(entry + 8, little);
    places.set(name, { start: at, length: size });
  }
  const values = new Map<number, number>();
  for (const [name, place] of places) {
    const bytes = yield place;
    if (bytes.length < place.length) continue;
    const view = new DataView(bytes.buffer, bytes.byteOffset, place.length);
    values.set(
      name,
      place.length === 1
        ? view.getUint8(0)
        : place.length === 2
          ? view.getUint16(0, little)
          : view.getUint32(0, little),
    );
  }
  return values;
}

/** The same of bytes in memory. @throws Unreadable, RangeError */
export function firstDirectory(bytes: Uint8Array): ReadonlyMap<number, number> {
  return readWithin(bytes, readFirstDirectory());
}

/** Bytes of a value of each field type (TIFF 6.0, section 2, and the IFD of its first supplement). */
const bytesOfAnyType = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4] as const;

/**
 * Refuses a first directory whose values together are larger than the file: the library that decodes makes room for each of them
 * before it looks whether they are there.
 * @throws Unreadable, RangeError
 */
export function refuseImpossibleDirectory(bytes: Uint8Array): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = view.getUint16(0) === 0x4949;
  const directory = view.getUint32(4, little);
  const count = view.getUint16(directory, little);
  let stored = 0;
  for (let entry = directory + 2; entry < directory + 2 + 12 * count; entry += 12)
    stored += (bytesOfAnyType[view.getUint16(entry + 2, little)] ?? 0) * view.getUint32(entry + 4, little);
  if (stored > 2 * bytes.length + mostExif)
    throw new Unreadable(t('The TIFF file is damaged: its header says that it holds more than the file is long.'));
}

/** @throws Unreadable, RangeError */
export function* tiffSize(): HeaderReader<StoredSize> {
  const values = yield* readFirstDirectory();
  const width = values.get(tag.width);
  const height = values.get(tag.height);
  if (!width || !height) throw new Unreadable(t('The TIFF file does not say how large its picture is.'));
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
