import type { Orientation } from '../picture-size.ts';
import { bareGif } from './bare-gif.ts';
import { bareJpeg } from './bare-jpeg.ts';
import { barePng } from './bare-png.ts';
import { bareWebp } from './bare-webp.ts';

/**
 * A picture as it may be passed on: the same pixels turned the same way, and nothing of where, when and with what it was taken. Each
 * format is copied by a list of what its picture needs, so that what nobody has heard of stays behind as well.
 * @param orientation what the file says; it is said again in a block of its own.
 * @throws Unreadable where the file is too damaged to be followed.
 */
export function barePicture(
  kind: 'png' | 'jpeg' | 'webp' | 'gif',
  bytes: Uint8Array,
  orientation: Orientation,
): Uint8Array {
  switch (kind) {
    case 'png':
      return barePng(bytes, orientation);
    case 'jpeg':
      return bareJpeg(bytes, orientation);
    case 'webp':
      return bareWebp(bytes, orientation);
    case 'gif':
      return bareGif(bytes);
  }
}
