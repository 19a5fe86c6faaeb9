import { t } from '../../language/words.ts';
import type { Orientation } from '../picture-size.ts';
import { joined } from '../joined.ts';
import { Unreadable } from '../unreadable.ts';
import { bareProfile } from './bare-profile.ts';
import { orientationBlock } from './orientation-block.ts';
import { letters, PicturePieces, reads } from './parts.ts';

const damaged = (): string => t('The JPEG data are damaged: one part does not follow the other as it must.');
const profileName = 'ICC_PROFILE\0';

/**
 * A JPEG file with what its picture needs and nothing else (ITU-T T.81 B.1 and B.2): tables, frames, scans; of the makers' own
 * segments JFIF without its small picture, the colour profile, and Adobe's, which tells how colours are coded. What stands behind the
 * end of the picture goes too. The coded data stay as they are.
 * @throws Unreadable
 */
export function bareJpeg(bytes: Uint8Array, orientation: Orientation): Uint8Array {
  const head = new PicturePieces();
  const body = new PicturePieces();
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) throw new Unreadable(damaged());
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0xd9) break;
    if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += 2;
      continue;
    }
    const length = ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
    if (length < 2) throw new Unreadable(damaged());
    const segment = bytes.subarray(at, at + 2 + length);
    at += 2 + length;
    if (marker === 0xe0 && reads(segment, 4, 'JFIF\0') && segment.length >= 18) head.keep(bareJfif(segment));
    else if (marker === 0xe2 && reads(segment, 4, profileName)) body.keep(bareProfilePart(segment));
    else if (marker === 0xee && reads(segment, 4, 'Adobe') && segment.length >= 16)
      body.keep(Uint8Array.of(0xff, 0xee, 0, 14), segment.subarray(4, 16));
    else if (isOfPicture(marker)) body.keep(segment);
    if (marker === 0xda) {
      const end = scanEnd(bytes, at);
      body.keep(bytes.subarray(at, end));
      at = end;
    }
  }
  if (orientation !== 1) {
    const block = joined([letters('Exif\0\0'), orientationBlock(orientation)]);
    head.keep(Uint8Array.of(0xff, 0xe1, 0, block.length + 2), block);
  }
  return joined([Uint8Array.of(0xff, 0xd8), head.whole(), body.whole(), Uint8Array.of(0xff, 0xd9)]);
}

/** Frames, tables, scans, restart intervals, numbers of lines; neither application segments nor comments (T.81 table B.1). */
function isOfPicture(marker: number): boolean {
  return (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc8) || (marker >= 0xda && marker <= 0xdf);
}

/** Where the coded data that begin at `at` end: at the first marker that is neither stuffing nor a restart. */
function scanEnd(bytes: Uint8Array, at: number): number {
  for (let end = bytes.indexOf(0xff, at); end >= 0; end = bytes.indexOf(0xff, end + 1)) {
    const next = bytes[end + 1];
    if (next === undefined) break;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return end;
  }
  return bytes.length;
}

/** Version, density and no small picture. */
function bareJfif(segment: Uint8Array): Uint8Array {
  const bare = segment.slice(0, 18);
  bare[2] = 0;
  bare[3] = 16;
  bare.fill(0, 16);
  return bare;
}

/** A colour profile may go over several segments; the header is in the first. */
function bareProfilePart(segment: Uint8Array): Uint8Array {
  const start = 4 + profileName.length + 2;
  if (segment[start - 2] !== 1) return segment;
  return joined([segment.subarray(0, start), bareProfile(segment.subarray(start))]);
}
