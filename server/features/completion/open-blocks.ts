import type { View } from '../../../shared/notation/landmarks.ts';
import { startOfLine } from '../../../shared/notation/line-bounds.ts';
import { parseBlock } from '../../../shared/notation/parse.ts';
import { splitBlocks } from '../../../shared/notation/split.ts';
import {
  isGroup,
  type Entry,
  type Group,
  type Span,
  type Statement,
  type Tree,
} from '../../../shared/notation/tree.ts';
import type { BlockWord } from '../../../shared/notation/vocabulary.ts';

/** A block that is open where a line begins. */
export interface OpenBlock {
  readonly word: BlockWord;
  readonly header: Statement;
  /** Column of its header. */
  readonly column: number;
  /** All that the block holds, also further down, without the line that begins here. */
  readonly entries: readonly Entry[];
  /** From its header to the end of its last line, in the file. */
  readonly span: Span;
}

export interface OpenBlocks {
  /** Innermost first. */
  readonly blocks: readonly OpenBlock[];
  /** Column of the last line written before; 0 at the top. */
  readonly column: number;
}

/**
 * The blocks open before the line that starts at `lineStart`. The text above it alone decides, so that whatever is half
 * written on the line itself, or missing on it, changes nothing.
 */
export function openBlocks(tree: Tree, lineStart: number): OpenBlocks {
  const above = tree.text.slice(0, lineStart);
  const last = splitBlocks(above).at(-1) ?? { start: 0, end: 0 };
  const block = parseBlock(above.slice(last.start, last.end));
  const column = (offset: number): number => columnOf(tree.text, offset);
  const written = block.lines.findLast((line) => line.items.length > 0 || line.prose);
  const first = written?.items[0] ?? written?.prose;
  const open: OpenBlock[] = [];
  if (block.row && block.header) {
    const { header, row } = block;
    const opened = (word: BlockWord, head: Statement, entries: readonly Entry[]): OpenBlock => ({
      word,
      header: head,
      column: column(last.start + head.start),
      entries,
      span: { start: last.start + head.start, end: last.start + (entries.at(-1)?.end ?? head.end) },
    });
    open.push(opened(row.word, header, entriesIn(tree, last.start, null, lineStart)));
    for (let group = openGroup(block.entries); group; group = openGroup(group.entries))
      open.unshift(opened(group.row.word, group.header, entriesIn(tree, last.start, group, lineStart)));
  }
  return { blocks: open, column: first ? column(last.start + first.start) : 0 };
}

/** The last thing written is in a group that is still open, or in none. */
function openGroup(entries: readonly Entry[]): Group | null {
  const last = entries.at(-1);
  return last && isGroup(last) ? last : null;
}

function entriesIn(tree: Tree, start: number, group: Group | null, lineStart: number): Entry[] {
  const placed = tree.blocks.find((block) => block.start === start);
  const entries = group ? findGroup(placed?.block.entries ?? [], group.start)?.entries : placed?.block.entries;
  return (entries ?? []).filter((entry) => !onLine(tree.text, start + entry.start, lineStart));
}

function findGroup(entries: readonly Entry[], start: number): Group | null {
  for (const entry of entries) {
    if (!isGroup(entry)) continue;
    if (entry.start === start) return entry;
    const inner = findGroup(entry.entries, start);
    if (inner) return inner;
  }
  return null;
}

function onLine(text: string, offset: number, lineStart: number): boolean {
  return offset >= lineStart && !/[\r\n]/.test(text.slice(lineStart, offset));
}

function columnOf(text: string, offset: number): number {
  return offset - startOfLine(text, offset);
}

export function viewOf({ header }: OpenBlock): View | null {
  const item = header.args.get('view')?.[0];
  return item?.kind === 'word' ? (item.image as View) : null;
}

export function footWritten({ header }: OpenBlock): string | null {
  const item = header.args.get('foot')?.[0];
  return item?.kind === 'word' ? item.image : null;
}
