import { t } from '../../language/words.ts';
import { Unreadable } from '../unreadable.ts';

const damaged = (): string => t('The TIFF file is damaged: its compressed picture (LZW) cannot be unpacked.');
const clear = 256;
const end = 257;

/**
 * TIFF's LZW (TIFF 6.0, section 13). Each entry of the table leads to an earlier one, so no damage can make it run in a circle.
 * @param most bytes wanted; unpacking stops there.
 * @throws Unreadable
 */
export function unpackLzw(bytes: Uint8Array, most: number): Uint8Array {
  const before = new Uint16Array(4096);
  const last = Uint8Array.from({ length: 4096 }, (_, i) => (i < 256 ? i : 0));
  const lengths = new Uint16Array(4096).fill(1);
  let out = new Uint8Array(Math.min(most, bytes.length * 4));
  let written = 0;
  let next = 258;
  let width = 9;
  let previous = -1;
  let held = 0;
  let bits = 0;
  for (const byte of bytes) {
    held = (held << 8) | byte;
    bits += 8;
    if (bits < width) continue;
    bits -= width;
    const code = held >>> bits;
    held &= (1 << bits) - 1;
    if (code === end || written >= most) break;
    if (code === clear) {
      next = 258;
      width = 9;
      previous = -1;
      continue;
    }
    if (code > next || (code === next && previous < 0) || (previous < 0 && code > 255)) throw new Unreadable(damaged());
    if (previous >= 0 && next < 4096) {
      before[next] = previous;
      lengths[next] = (lengths[previous] ?? 0) + 1;
      last[next] = firstOf(code === next ? previous : code, before, last);
      next++;
      if (next >= (1 << width) - 1 && width < 12) width++;
    }
    const length = lengths[code] ?? 0;
    if (written + length > out.length) {
      const grown = new Uint8Array(Math.min(Math.max(out.length * 2, written + length), most + 4096));
      grown.set(out);
      out = grown;
    }
    for (let at = written + length - 1, entry = code; at >= written; at--, entry = before[entry] ?? 0)
      out[at] = last[entry] ?? 0;
    written += length;
    previous = code;
  }
  return out.subarray(0, Math.min(written, most));
}

function firstOf(code: number, before: Uint16Array, last: Uint8Array): number {
  let entry = code;
  while (entry > 257) entry = before[entry] ?? 0;
  return last[entry] ?? 0;
}
