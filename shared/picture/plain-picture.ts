import { gifSize } from './gif-header.ts';
import { readWithin } from './header-reader.ts';
import { endMarker, jpegHeader } from './jpeg-header.ts';
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

/** What a page that is given these bytes as they are would come upon; nothing is decoded. Never throws. */
export function plainPicture(bytes: Uint8Array): PlainPicture {
  const kind = pictureKind(bytes);
  try {
    switch (kind) {
      case 'unknown':
        throw new Unreadable(whyUnknown(bytes));
      case 'dicom':
        throw new Unreadable('This is a DICOM file under another name. Rename it to end in .dcm.');
      case 'tiff':
        throw new Unreadable('This is a TIFF file under another name. Rename it to end in .tif.');
      case 'png':
        return fitting(readWithin(bytes, pngSize()), hasPngEnd(bytes));
      case 'jpeg':
        return fitting(jpegHeader(bytes), endMarker(bytes) > bytes.length / 2);
      case 'webp':
        return fitting(
          readWithin(bytes, webpSize()),
          bytes.length >= 8 + new DataView(bytes.buffer, bytes.byteOffset).getUint32(4, true),
        );
      case 'gif':
        return fitting(readWithin(bytes, gifSize()), bytes.lastIndexOf(0x3b) > bytes.length / 2);
    }
  } catch (cause) {
    return {
      problem: sentenceOf(
        cause,
        'The file ends before it says how large its picture is; it is cut short. Copy it again from where it came from.',
      ),
    };
  }
}

function fitting({ width, height }: Pick<StoredSize, 'width' | 'height'>, whole: boolean): PlainPicture {
  if (width === 0 || height === 0)
    throw new Unreadable('The file says that its picture is 0 pixels wide or high; it is damaged.');
  if (width * height > mostShown)
    throw new Unreadable(
      `It is ${width} by ${height} pixels, twice as many as the largest film has and more than can be shown. Save a copy at half the size, and place its landmarks on that.`,
    );
  return { width, height, whole };
}

/** Whether the chunks lead to IEND (PNG, third edition, 5.6). */
function hasPngEnd(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at))
    if (view.getUint32(at + 4) === 0x49454e44) return true;
  return false;
}
