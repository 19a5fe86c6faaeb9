import { t } from '../../language/words.ts';
import { Unreadable } from '../unreadable.ts';
import { PicturePieces, reads } from './parts.ts';

const damaged = (): string => t('The GIF file is damaged: one part does not follow the other as it must.');
/** Extensions that tell how often a picture that moves is shown again; others of their kind hold descriptions. */
const repeats = ['NETSCAPE2.0', 'ANIMEXTS1.0'] as const;

/** A GIF file with its pictures and their times and nothing else (GIF89a, appendix A): no comments, texts, descriptions. @throws Unreadable */
export function bareGif(bytes: Uint8Array): Uint8Array {
  const parts = new PicturePieces();
  let at = 13 + tableLength(bytes[10] ?? 0);
  parts.keep(bytes.subarray(0, at));
  while (at < bytes.length && bytes[at] !== 0x3b) {
    const start = at;
    if (bytes[at] === 0x2c) {
      at = afterBlocks(bytes, at + 11 + tableLength(bytes[at + 9] ?? 0));
      parts.keep(bytes.subarray(start, at));
    } else if (bytes[at] === 0x21) {
      at = afterBlocks(bytes, at + 2);
      const repeat = bytes[start + 1] === 0xff && repeats.some((name) => reads(bytes, start + 3, name));
      if (bytes[start + 1] === 0xf9 || repeat) parts.keep(bytes.subarray(start, at));
    } else throw new Unreadable(damaged());
  }
  parts.keep(Uint8Array.of(0x3b));
  return parts.whole();
}

/** Bytes of the colour table that the packed field tells of. */
function tableLength(packed: number): number {
  return packed & 0x80 ? 3 * 2 ** ((packed & 7) + 1) : 0;
}

/** Past the blocks that begin at `at` and the empty one that ends them, or the end of a file that was cut short. */
function afterBlocks(bytes: Uint8Array, at: number): number {
  let next = at;
  while ((bytes[next] ?? 0) !== 0) next += 1 + (bytes[next] ?? 0);
  return Math.min(next + 1, bytes.length);
}
