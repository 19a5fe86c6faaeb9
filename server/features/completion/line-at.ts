import { startOfLine } from '../../../shared/notation/line-bounds.ts';
import { parseLines } from '../../../shared/notation/lines.ts';
import type { Item, Span } from '../../../shared/notation/tree.ts';

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
  const image = before.slice(pieceStart(before));
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

const letter = /^[\p{L}°%_]$/u;
const inWord = /^[\p{L}\d°%_./-]$/u;
const inNumber = /^[\d.,/-]$/;
const digit = /^\d$/;

/** Longer than any word or number that could be meant; where a piece is longer, its end stands for it. */
const longestPiece = 1000;

/**
 * Where the word or number begins that the text ends with. Walked from behind: an expression that is to match at the end of a text is
 * tried anew at each of its characters.
 */
function pieceStart(text: string): number {
  let start = text.length;
  let [word, number] = [true, true];
  for (let at = text.length; at > Math.max(0, text.length - longestPiece) && (word || number);) {
    const character = characterBefore(text, at);
    at -= character.length;
    word &&= inWord.test(character);
    number &&= inNumber.test(character);
    if ((word && letter.test(character)) || (number && (digit.test(character) || isMinus(text, at)))) start = at;
  }
  return start;
}

const isMinus = (text: string, at: number): boolean => text[at] === '-' && digit.test(text[at + 1] ?? '');

/** With both halves of a character that UTF-16 writes in two. */
function characterBefore(text: string, end: number): string {
  const code = text.codePointAt(end - 2) ?? 0;
  return code > 0xffff ? String.fromCodePoint(code) : text.slice(end - 1, end);
}
