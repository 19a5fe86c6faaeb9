import { joined } from '../joined.ts';
import type { Orientation } from '../picture-size.ts';
import { bareProfile } from './bare-profile.ts';
import { orientationBlock } from './orientation-block.ts';
import { letters, PicturePieces } from './parts.ts';

/** Flags of the VP8X chunk (RFC 9649, 2.7.1). */
const flag = { profile: 0x20, alpha: 0x10, exif: 0x08, movement: 0x02 } as const;
const ofPicture: ReadonlySet<string> = new Set(['VP8 ', 'VP8L', 'ALPH', 'ANIM']);

/** A WebP file with what its picture needs and nothing else (RFC 9649, 2.7), each frame of one that moves as well. */
export function bareWebp(bytes: Uint8Array, orientation: Orientation): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  // What stands behind the length that the file gives itself is no part of it.
  const end = bytes.length < 8 ? 0 : Math.min(bytes.length, 8 + view.getUint32(4, true));
  const parts = new PicturePieces();
  for (const { name, body } of chunks(bytes, 12, end)) {
    if (name === 'VP8X') {
      const head = body.slice(0, 10);
      head[0] = ((head[0] ?? 0) & (flag.profile | flag.alpha | flag.movement)) | (orientation === 1 ? 0 : flag.exif);
      parts.keep(chunk('VP8X', head));
    } else if (name === 'ICCP') parts.keep(chunk(name, bareProfile(body)));
    else if (name === 'ANMF') parts.keep(chunk(name, joined([body.subarray(0, 16), frame(body)])));
    else if (ofPicture.has(name)) parts.keep(chunk(name, body));
  }
  if (orientation !== 1) parts.keep(chunk('EXIF', orientationBlock(orientation)));
  return chunk('RIFF', joined([letters('WEBP'), parts.whole()]));
}

/** What follows the place and the time of a frame: its picture, and perhaps what nobody knows. */
function frame(body: Uint8Array): Uint8Array {
  const parts = new PicturePieces();
  for (const inner of chunks(body, 16, body.length))
    if (ofPicture.has(inner.name)) parts.keep(chunk(inner.name, inner.body));
  return parts.whole();
}

function* chunks(bytes: Uint8Array, start: number, end: number): Generator<{ name: string; body: Uint8Array }> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = start; at + 8 <= end;) {
    const length = view.getUint32(at + 4, true);
    yield {
      name: String.fromCharCode(...bytes.subarray(at, at + 4)),
      body: bytes.subarray(at + 8, Math.min(end, at + 8 + length)),
    };
    at += 8 + length + (length % 2);
  }
}

function chunk(name: string, body: Uint8Array): Uint8Array {
  const length = new DataView(new ArrayBuffer(4));
  length.setUint32(0, body.length, true);
  return joined([letters(name), new Uint8Array(length.buffer), body, new Uint8Array(body.length % 2)]);
}
