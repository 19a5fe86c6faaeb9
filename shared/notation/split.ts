import { isMisread } from './misread-header.ts';
import { nearPartAt, type NearPart } from './near-part.ts';
import type { Span } from './tree.ts';
import { blocks } from './vocabulary.ts';

/** The text of a level-0 block within the file, and how many lines it has. */
export interface Part extends Span {
  readonly lines: number;
}

const headers = blocks.filter((row) => row.level === 0).map((row) => row.word);
const header = new RegExp(`[^\\S\\r\\n]*(${headers.join('|')})(?![^\\s"#|,@=])`, 'y');
const firstLetters = new Set(headers.map((word) => word.charCodeAt(0)));

/**
 * Where each level-0 block begins; what stands before the first header is a block without one. A header that is misread, and whose lines
 * are those of the block above it, begins none: see `isMisread`.
 */
export function splitBlocks(text: string): Part[] {
  const parts: Part[] = [];
  let start = 0;
  let lines = 0;
  let lineFeed = -1;
  let carriageReturn = -1;
  let open = partAt(text, 0);
  for (let at = 0; at < text.length; lines++) {
    const found = at > start ? partAt(text, at) : null;
    if (found && !(open && isMisread(text, at, found, open.word, partAt))) {
      parts.push({ start, end: at, lines });
      start = at;
      lines = 0;
      open = found;
    }
    if (lineFeed < at) lineFeed = placeOf('\n', text, at);
    if (carriageReturn < at) carriageReturn = placeOf('\r', text, at);
    at = Math.min(lineFeed, carriageReturn + 1 === lineFeed ? lineFeed : carriageReturn) + 1;
  }
  parts.push({ start, end: text.length, lines });
  return parts;
}

/** The end of the text where the sign is not in it any more. */
function placeOf(sign: string, text: string, from: number): number {
  const place = text.indexOf(sign, from);
  return place < 0 ? text.length : place;
}

/** A part of the file that a line begins. */
export interface PartHead {
  readonly word: string;
  /** Where the line only nearly begins it. */
  readonly near: NearPart | null;
}

/** The part that the line at `at` begins, by its word or by what is nearly one; null where it begins none. */
export function partAt(text: string, at: number): PartHead | null {
  const word = headerAt(text, at);
  if (word !== null) return { word, near: null };
  const near = nearPartAt(text, at);
  return near && { word: near.word, near };
}

/** The level-0 word that the line at `at` begins with; null where it begins with none. */
function headerAt(text: string, at: number): string | null {
  let first = at;
  while (text.charCodeAt(first) === 32) first++;
  const code = text.charCodeAt(first);
  // The expression is asked only where a header may be: a quarter of the lines.
  if (code > 32 && code < 128 && !firstLetters.has(code)) return null;
  header.lastIndex = at;
  return header.exec(text)?.[1] ?? null;
}
