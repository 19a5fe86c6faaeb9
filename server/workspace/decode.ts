import { notUtf8, utf16 } from '../../shared/findings/engine/file-problems.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { LineMap } from '../../shared/notation/line-map.ts';

export interface DecodedText {
  /** The text without a byte order mark, as editors have it; U+FFFD where bytes are not UTF-8. */
  readonly text: string;
  readonly problem: Finding | null;
}

/** The text of a file, whatever its bytes. */
export function decode(bytes: Uint8Array): DecodedText {
  const wide =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff && 'utf-16be';
  if (wide) return { text: new TextDecoder(wide).decode(bytes), problem: utf16() };
  const sound = strictly(bytes, { stream: false });
  if (sound !== null) return { text: sound, problem: null };
  const text = new TextDecoder().decode(bytes);
  const { at, byte } = firstBad(bytes);
  return { text, problem: notUtf8(at, new LineMap(text).at(at), byte) };
}

function strictly(bytes: Uint8Array, { stream }: { stream: boolean }): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream });
  } catch {
    return null;
  }
}

/** Where the first invalid sequence begins, in UTF-16 units of the text, and its first byte. */
function firstBad(bytes: Uint8Array): { at: number; byte: number } {
  // How many of the first bytes go through; a letter that is cut short by the end is seen by no shorter piece.
  let sound = 0;
  let bad = bytes.length + 1;
  while (bad - sound > 1) {
    const middle = (sound + bad) >> 1;
    if (strictly(bytes.subarray(0, middle), { stream: true }) === null) bad = middle;
    else sound = middle;
  }
  const before = strictly(bytes.subarray(0, sound), { stream: true }) ?? '';
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const byte = bytes[new TextEncoder().encode(before).length + mark] ?? 0;
  return { at: before.length, byte };
}
