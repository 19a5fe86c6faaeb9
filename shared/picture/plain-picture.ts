import { t } from '../language/words.ts';
import type { ByteSource } from './byte-source.ts';
import { gifSize } from './gif-header.ts';
import { readFrom, whole, type HeaderReader } from './header-reader.ts';
import { readJpegHeader } from './jpeg-header.ts';
import { pictureKind, whyUnknown } from './picture-kind.ts';
import type { StoredSize } from './picture-size.ts';
import { pngSize } from './png-header.ts';
import { sentenceOf, Unreadable } from './unreadable.ts';
import { webpSize } from './webp-header.ts';

/** Pixels as stored. `whole`: the file goes on to its end, as far as that can be seen without decoding it. */
export type PlainPicture =
  { readonly width: number; readonly height: number; readonly whole: boolean } | { readonly problem: string };

/**
 * Twice the largest film digitised at 50 micrometres (35 x 43 cm, 60 million pixels). A browser takes four bytes for each: half a
 * gigabyte, which it still shows without a halt.
 */
export const mostShown = 2 ** 27;

/** Enough to tell the kinds apart. */
const beginning = 256;
/** Bytes that are looked through for an end at a time. */
const piece = 2 ** 16;

/**
 * What a page that is given this file as it is would come upon; nothing is decoded, and only the file's headers and its end are
 * read. Rejects only where the source does.
 */
export function plainPicture(source: ByteSource): Promise<PlainPicture> {
  return readFrom(source, plainFacts(source.size));
}

function* plainFacts(size: number): HeaderReader<PlainPicture> {
  const bytes = yield { start: 0, length: beginning };
  try {
    const kind = pictureKind(bytes);
    switch (kind) {
      case 'unknown':
        throw new Unreadable(whyUnknown(bytes));
      case 'dicom':
        throw new Unreadable(t('This is a DICOM file under another name. Rename it to end in .dcm.'));
      case 'tiff':
        throw new Unreadable(t('This is a TIFF file under another name. Rename it to end in .tif.'));
      case 'png':
        return fitting(yield* pngSize(), yield* endsWith(pngEnd, size));
      case 'jpeg':
        return fitting(yield* readJpegHeader(), yield* endsWith(jpegEnd, size));
      case 'webp':
        return fitting(yield* webpSize(), size >= 8 + (yield* whole(4, 4)).getUint32(0, true));
      case 'gif':
        return fitting(yield* gifSize(), yield* endsWith(gifEnd, size));
    }
  } catch (cause) {
    return {
      problem: sentenceOf(
        cause,
        t(
          'The file ends before it says how large its picture is; it is cut short. Copy it again from where it came from.',
        ),
      ),
    };
  }
}

function fitting({ width, height }: Pick<StoredSize, 'width' | 'height'>, whole: boolean): PlainPicture {
  if (width === 0 || height === 0)
    throw new Unreadable(t('The file says that its picture is 0 pixels wide or high; it is damaged.'));
  if (width * height > mostShown)
    throw new Unreadable(
      t(
        'It is {0} by {1} pixels, twice as many as the largest film has and more than can be shown. Save a copy at half the size, and place its landmarks on that.',
        width,
        height,
      ),
    );
  return { width, height, whole };
}

/** The last chunk, IEND, which is the same in every file (PNG, third edition, 11.2.4). */
const pngEnd = Uint8Array.of(0, 0, 0, 0, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82);
/** EOI (ITU-T T.81, B.1.1.3). */
const jpegEnd = Uint8Array.of(0xff, 0xd9);
/** The trailer (GIF89a, section 27). */
const gifEnd = Uint8Array.of(0x3b);

/** Whether an end mark stands in the second half of the file, of which the last piece is read first. Programs write things behind it. */
function* endsWith(mark: Uint8Array, size: number): HeaderReader<boolean> {
  const middle = Math.floor(size / 2) + 1;
  for (let end = size; end > middle; end -= piece) {
    const start = Math.max(middle, end - piece);
    // A mark may lie across the seam.
    const bytes = yield { start, length: Math.min(end + mark.length - 1, size) - start };
    if (has(bytes, mark)) return true;
  }
  return false;
}

function has(bytes: Uint8Array, mark: Uint8Array): boolean {
  const [first = 0] = mark;
  for (let at = bytes.indexOf(first); at >= 0; at = bytes.indexOf(first, at + 1))
    if (mark.every((byte, i) => bytes[at + i] === byte)) return true;
  return false;
}
