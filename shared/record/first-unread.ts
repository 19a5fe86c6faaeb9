import { isGroup, isStatement, type Entry, type Span } from '../notation/tree.ts';
import * as read from './arguments.ts';

/**
 * The first line of a visit that is not understood, or of a plan or trim in it: it may be a sign, a grade or millimetres. What
 * is said of pictures and tapes is no such thing, but for a line that begins with no word of theirs, and for the beginning of one.
 */
export function firstUnread(entries: readonly Entry[]): Span | null {
  for (const entry of entries) {
    if (isStatement(entry) && !entry.whole) return read.spanOf(entry);
    if (!isGroup(entry)) continue;
    const { header, row } = entry;
    const isCut = row.word === 'trim' || row.word === 'plan';
    const own = isCut ? entry.entries : entry.entries.filter((one) => isGroup(one) || one.kind === 'unknown');
    const within = header.whole && !header.misspelt ? firstUnread(own) : read.spanOf(header);
    if (within) return within;
  }
  return null;
}
