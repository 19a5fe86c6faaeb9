import { formatEdits, placesOf } from './format.ts';
import { startOfLine } from './line-bounds.ts';
import type { Edit } from './problems.ts';
import type { PlacedBlock, Span, Tree } from './tree.ts';

/** The changes of the whole layout that lie in the lines which the spans touch, each once and in order. */
export function formatEditsIn(text: string, spans: readonly Span[]): Edit[] {
  const lines = spans.map((span) => wholeLines(text, span));
  return formatEdits(text).filter((edit) => lines.some(({ start, end }) => edit.start >= start && edit.end <= end));
}

/** A span that ends where a line begins does not touch it, unless it is empty. */
function wholeLines(text: string, { start, end }: Span): Span {
  const first = startOfLine(text, start);
  if (end > start && startOfLine(text, end) === end) return { start: first, end };
  const ending = /\r\n|\n|\r/g;
  ending.lastIndex = end;
  const found = ending.exec(text);
  return { start: first, end: found ? found.index + found[0].length : text.length };
}

/**
 * The changes after a line end was typed: the line that was left is laid out, and the new one, which begins at `offset`,
 * is indented as its block wants it. Prose goes on as prose; an empty line of prose ends it. No other line is touched.
 */
export function formatEditsAfterEnter({ text, blocks }: Tree, offset: number): Edit[] {
  const ending = /(?:\r\n|\n|\r)$/.exec(text.slice(0, offset))?.[0];
  if (ending === undefined) return [];
  const left = { start: startOfLine(text, offset - ending.length), end: offset - ending.length };
  const written = text.slice(left.start, left.end);
  const fresh = /^[^\r\n]*/.exec(text.slice(offset))?.[0] ?? '';
  const blanks = /^\s*/.exec(fresh)?.[0] ?? '';
  const isBlank = blanks === fresh;
  const placed = blocks.findLast(({ start }) => start <= left.start);
  const depth = placed ? depthAfter(placed, left.start) : 0;
  const indent = '  '.repeat(depth);
  const prose = /^\s*\|(.*)$/.exec(written)?.[1];
  if (prose !== undefined && prose.trim() === '' && isBlank)
    return [{ start: left.start, end: offset + blanks.length, text: indent }];
  const own = isBlank || prose !== undefined ? indent : indentOf(blocks, offset);
  const wanted = own === null ? blanks : own + (prose !== undefined && !/^\s*\|/.test(fresh) ? '| ' : '');
  return [
    ...layOutLeft(text, left, offset),
    ...(wanted === blanks ? [] : [{ start: offset, end: offset + blanks.length, text: wanted }]),
  ];
}

/** The line ending stays out of it, so that a cursor behind it stays where it is. */
function layOutLeft(text: string, left: Span, next: number): Edit[] {
  const written = text.slice(left.start, left.end);
  // The layout may take a blank line away; whoever has just made it wants it.
  if (written.trim() === '') return written === '' ? [] : [{ ...left, text: '' }];
  return formatEdits(text)
    .filter(({ start, end }) => start >= left.start && end <= next)
    .map((edit) => ({ start: edit.start, end: left.end, text: edit.text.replace(/(?:\r\n|\n|\r)$/, '') }));
}

/** How deep a line stands that follows the one at `offset`: within the block that this one opens, else beside it. */
function depthAfter({ start, block }: PlacedBlock, offset: number): number {
  const number = block.lines.findLastIndex((line) => start + line.start <= offset);
  let last = { line: -1, depth: 0 };
  for (const [line, { entry, depth }] of placesOf(block)) {
    if (line > number || line < last.line) continue;
    const opens = entry.kind === 'header' && entry.word !== 'hoof';
    last = { line, depth: opens ? depth + 1 : depth };
  }
  return last.depth;
}

/** The indentation of a line that is written already; null where it means nothing. */
function indentOf(blocks: Tree['blocks'], offset: number): string | null {
  const placed = blocks.findLast(({ start }) => start <= offset);
  const number = placed?.block.lines.findLastIndex((line) => placed.start + line.start <= offset) ?? -1;
  const here = placed && placesOf(placed.block).get(number);
  if (!here || (here.entry.kind !== 'prose' && !here.entry.whole)) return null;
  return '  '.repeat(here.depth);
}
