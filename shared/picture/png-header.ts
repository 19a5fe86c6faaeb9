import { exifOrientation } from './tiff-directory.ts';
import type { Orientation, StoredSize } from './picture-size.ts';
import { Unreadable } from './unreadable.ts';

/** Size and eXIf orientation (PNG, third edition, 11.2.1 and 11.3.4.5); the eXIf chunk may follow the picture. @throws Unreadable, RangeError */
export function pngSize(bytes: Uint8Array): StoredSize {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint32(12) !== 0x49484452)
    throw new Unreadable('The PNG file is damaged: it does not begin with its size.');
  const width = view.getUint32(16);
  const height = view.getUint32(20);
  let orientation: Orientation = 1;
  for (let at = 8; at + 8 <= bytes.length; at += 12 + view.getUint32(at)) {
    if (view.getUint32(at + 4) !== 0x65584966) continue;
    orientation = exifOrientation(bytes.subarray(at + 8, at + 8 + view.getUint32(at)));
    break;
  }
  return { width, height, orientation };
}
