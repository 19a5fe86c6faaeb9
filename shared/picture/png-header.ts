import { t } from '../language/words.ts';
import { whole, type HeaderReader } from './header-reader.ts';
import { exifOrientation, mostExif } from './tiff-directory.ts';
import type { Orientation, StoredSize } from './picture-size.ts';
import { Unreadable } from './unreadable.ts';

/** Four times what the largest film has in chunks of 8 KB, as the usual writer makes them. Behind so many nobody looks for the orientation. */
const mostChunks = 2 ** 16;

/** Size and eXIf orientation (PNG, third edition, 11.2.1 and 11.3.4.5); the eXIf chunk may follow the picture. @throws Unreadable, RangeError */
export function* pngSize(): HeaderReader<StoredSize> {
  const view = yield* whole(0, 24);
  if (view.getUint32(12) !== 0x49484452)
    throw new Unreadable(t('The PNG file is damaged: it does not begin with its size.'));
  return { width: view.getUint32(16), height: view.getUint32(20), orientation: yield* orientationOf() };
}

function* orientationOf(): HeaderReader<Orientation> {
  let at = 8;
  for (let chunks = 0; chunks < mostChunks; chunks++) {
    const head = yield { start: at, length: 8 };
    if (head.length < 8) return 1;
    const view = new DataView(head.buffer, head.byteOffset, 8);
    const length = view.getUint32(0);
    if (view.getUint32(4) === 0x65584966)
      return exifOrientation(yield { start: at + 8, length: Math.min(length, mostExif) });
    at += 12 + length;
  }
  return 1;
}
