import { startOfLine } from '../../shared/notation/line-bounds.ts';
import { parseLines } from '../../shared/notation/lines.ts';
import type { Item, Span } from '../../shared/notation/tree.ts';

/** The line that is being written, at the place where it is being written. */
export interface LineAt {
  /** Offset of its first character in the file. */
  readonly start: number;
  readonly indentation: number;
  /** What stands before the piece that is being typed. */
  readonly items: readonly Item[];
  /** The piece being typed, to its end behind the cursor; empty after a blank. */
  readonly typed: Span & { readonly image: string };
  /** Whether more follows on the line. */
  readonly goesOn: boolean;
  /** Whether the cursor stands behind the piece and not in it. */
  readonly atEnd: boolean;
}

const pieceBefore = /(?:[\p{L}°%_][\p{L}\d°%_./-]*|-?\d[\d.,/-]*)$/u;
const pieceAfter = /^[\p{L}\d°%_./-]*/u;

/** Null inside a text, a remark or prose, where nobody wants the notation's words. */
export function lineAt(text: string, offset: number): LineAt | null {
  const start = startOfLine(text, offset);
  const end = text.slice(offset).search(/[\r\n]/);
  const before = text.slice(start, offset);
  const after = end < 0 ? text.slice(offset) : text.slice(offset, offset + end);
  const [whole] = parseLines(before);
  const last = whole?.items.at(-1);
  if (whole?.comment || whole?.prose || (last?.kind === 'broken' && /^["|]/.test(last.image))) return null;
  const image = pieceBefore.exec(before)?.[0] ?? '';
  const tail = image === '' ? '' : (pieceAfter.exec(after)?.[0] ?? '');
  return {
    start,
    indentation: before.length - before.trimStart().length,
    items: parseLines(before.slice(0, before.length - image.length))[0]?.items ?? [],
    typed: { start: offset - image.length, end: offset + tail.length, image: image + tail },
    goesOn: /^\s*[^\s#]/.test(after.slice(tail.length)),
    atEnd: tail === '',
  };
}
