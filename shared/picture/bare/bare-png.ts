import { t } from '../../language/words.ts';
import { zlibSync } from 'fflate';
import { inflate } from '../bounded-inflate.ts';
import { joined } from '../joined.ts';
import type { Orientation } from '../picture-size.ts';
import { Unreadable } from '../unreadable.ts';
import { bareProfile } from './bare-profile.ts';
import { orientationBlock } from './orientation-block.ts';
import { letters, PicturePieces } from './parts.ts';

const damaged = (): string => t('The PNG file is damaged: one part does not follow the other as it must.');
/** The picture, its colours and its movement (PNG, third edition, clause 11); no texts, times, sizes on paper or EXIF. */
const kept: ReadonlySet<string> = new Set(
  'IHDR PLTE IDAT IEND tRNS cHRM gAMA sBIT sRGB cICP mDCV cLLI bKGD acTL fcTL fdAT'.split(' '),
);
/** The largest printers' profiles have some two million bytes. */
const mostProfile = 2 ** 22;

/** A PNG file with what its picture needs and nothing else, up to its end chunk. The kept chunks stay as they are. @throws Unreadable */
export function barePng(bytes: Uint8Array, orientation: Orientation): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts = new PicturePieces();
  parts.keep(bytes.subarray(0, 8));
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = view.getUint32(at);
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (!/^[a-zA-Z]{4}$/.test(name)) throw new Unreadable(damaged());
    const whole = bytes.subarray(at, at + 12 + length);
    if (name === 'iCCP') parts.keep(...profileChunk(whole.subarray(8, -4)));
    else if (kept.has(name)) parts.keep(whole);
    if (name === 'IHDR' && orientation !== 1) parts.keep(chunk('eXIf', orientationBlock(orientation)));
    if (name === 'IEND') break;
    at += 12 + length;
  }
  return parts.whole();
}

/** The colour profile under a name that tells nothing; none where it cannot be unpacked, which a browser could not either. */
function profileChunk(body: Uint8Array): readonly Uint8Array[] {
  const end = body.indexOf(0);
  if (end < 0) return [];
  const profile = inflate(
    'zlib',
    body.subarray(end + 2),
    mostProfile,
    'The colour profile of the PNG file is larger than any; the file is damaged().',
  );
  return profile.length < 128 ? [] : [chunk('iCCP', joined([letters('profile\0\0'), zlibSync(bareProfile(profile))]))];
}

function chunk(name: string, body: Uint8Array): Uint8Array {
  const named = joined([letters(name), body]);
  const ends = new DataView(new ArrayBuffer(8));
  ends.setUint32(0, body.length);
  ends.setUint32(4, checkSum(named));
  return joined([new Uint8Array(ends.buffer, 0, 4), named, new Uint8Array(ends.buffer, 4)]);
}

/** CRC-32 (PNG, third edition, 5.5). */
function checkSum(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return ~sum >>> 0;
}
