import type { PlacedBlock, Span } from './tree.ts';

/** A stretch of one line of a file: lines and UTF-16 columns from 0. It outlives the text that it was found in. */
export interface LineSpan {
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** Where a span of a block's line stands in the file; the line counted from the block's first. */
export function lineSpanIn({ line, block }: PlacedBlock, number: number, { start, end }: Span): LineSpan {
  const from = block.lines[number]?.start ?? 0;
  return { line: line + number, from: start - from, to: end - from };
}
