import { isGroup, isStatement, type Entry, type Span } from '../notation/tree.ts';
import * as read from './arguments.ts';

/**
 * The first line of a visit that is not understood, or of a plan or trim in it: it may be a sign, a grade or millimetres. What
 * is said of pictures and tapes is no such thing.
 */
export function firstUnread(entries: readonly Entry[]): Span | null {
  for (const entry of entries) {
    if (isStatement(entry) && !entry.whole) return read.spanOf(entry);
    if (!isGroup(entry) || (entry.row.word !== 'trim' && entry.row.word !== 'plan')) continue;
    const within = entry.header.whole ? firstUnread(entry.entries) : read.spanOf(entry.header);
    if (within) return within;
  }
  return null;
}
