import { Inflate, Unzlib } from 'fflate';
import { joined } from './joined.ts';
import { Unreadable } from './unreadable.ts';

/** Small enough that one step of inflating (at most 1032 times as large) cannot fill the memory before it is counted. */
const step = 2 ** 12;

/**
 * Inflates deflated bytes, bare (RFC 1951) or in zlib's wrapping (RFC 1950), and gives what came out before any damage.
 * @param tooMuch what to say where more than `most` bytes come out; null: nothing, and the beginning is enough.
 * @throws Unreadable with `tooMuch`.
 */
export function inflate(
  wrapping: 'bare' | 'zlib',
  bytes: Uint8Array,
  most: number,
  tooMuch: string | null,
): Uint8Array {
  const parts: Uint8Array[] = [];
  let length = 0;
  const stream = new (wrapping === 'bare' ? Inflate : Unzlib)((part) => {
    parts.push(part);
    length += part.length;
    if (length > most && tooMuch !== null) throw new Unreadable(tooMuch);
  });
  try {
    for (let at = 0; at < bytes.length; at += step) {
      stream.push(bytes.subarray(at, at + step), at + step >= bytes.length);
      if (length > most) break;
    }
  } catch (cause) {
    if (cause instanceof Unreadable) throw cause;
  }
  return joined(parts).subarray(0, most);
}
