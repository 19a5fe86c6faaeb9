import bidiFactory from 'bidi-js';
import LineBreaker from 'linebreak';
import { facesOf, type Face } from './faces.ts';
import type { FaceStyle } from './font-files.ts';

/** Words that look the same. */
export interface Inline {
  readonly text: string;
  readonly style: FaceStyle;
  /** Of the size of the block. */
  readonly scale: number;
  readonly colour: string;
  readonly href: string | null;
}

/** A stretch of a line in one face, ready to be drawn. */
export interface Run {
  /** In the order in which the writer takes it. */
  readonly text: string;
  /** In the order in which it is read. */
  readonly said: string;
  /** Null for what no face has: then a box with the name of the sign is drawn. */
  readonly face: Face | null;
  readonly inline: Inline;
  /** From the left end of the line, in units of the size of the block. */
  readonly x: number;
  readonly width: number;
  /** Whether its letters run to the left, and are shaped as one. */
  readonly toLeft: boolean;
}

export interface SetLine {
  readonly runs: readonly Run[];
  readonly width: number;
  /** Whether the paragraph begins at the right. */
  readonly fromRight: boolean;
}

/** The name of a sign that no face has is written so large. */
export const nameScale = 0.62;
/** Room at each side of such a name. */
export const boxRoom = 0.12;

const bidi = bidiFactory();
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });
/** What has no shape of its own where no face has one for it: joiners, marks of direction, variation selectors. */
const shapeless = /^\p{Default_Ignorable_Code_Point}+$/u;
const isArabic = /\p{Script=Arabic}/u;

interface Letter {
  readonly text: string;
  readonly start: number;
  readonly face: Face | null;
  readonly inline: Inline;
  readonly level: number;
}

/** Text in lines of a width, in units of the size of the block. `lacks` is told of each sign that no face has. */
export function linesOf(inlines: readonly Inline[], width: number, lacks: (sign: string) => void): SetLine[] {
  const plain = inlines.map((one) => ({ ...one, text: one.text.normalize('NFC') }));
  const text = plain.map((one) => one.text).join('');
  if (text.trim() === '') return [];
  const { levels, paragraphs } = bidi.getEmbeddingLevels(text, 'auto');
  const fromRight = (paragraphs[0]?.level ?? 0) % 2 === 1;
  const pieces = piecesOf(plain, levels, lacks);
  const breaks = breaksOf(text);
  const lines: SetLine[] = [];
  let from = 0;
  while (from < pieces.length) {
    const to = endOfLine(pieces, from, width, breaks);
    lines.push(lineOf(pieces.slice(from, to), fromRight));
    from = to;
  }
  return lines;
}

/** How wide the widest word is, and all of the text in one line, in units of the size of the block. */
export function widthsOf(inlines: readonly Inline[]): { readonly least: number; readonly most: number } {
  const text = inlines.map((one) => one.text).join('');
  const breaks = breaksOf(text);
  let [least, most, word] = [0, 0, 0];
  for (const piece of piecesOf(inlines, new Uint8Array(text.length), () => {})) {
    if (breaks.has(piece.start)) word = 0;
    const width = widthOfPiece(piece);
    most += width;
    word += isBlank(piece) ? 0 : width;
    least = Math.max(least, word);
  }
  return { least, most };
}

/** One for each thing that a reader takes for a letter. */
function piecesOf(inlines: readonly Inline[], levels: Uint8Array, lacks: (sign: string) => void): Letter[] {
  const pieces: Letter[] = [];
  let start = 0;
  for (const inline of inlines) {
    for (const { segment } of graphemes.segment(inline.text)) {
      const last = pieces.at(-1);
      const face = faceFor(segment, inline.style, last?.inline === inline ? last.face : null);
      if (face !== null || !shapeless.test(segment)) {
        if (face === null) lacks(segment);
        pieces.push({ text: segment, start, face, inline, level: levels[start] ?? 0 });
      }
      start += segment.length;
    }
  }
  return pieces;
}

function faceFor(sign: string, style: FaceStyle, before: Face | null): Face | null {
  const wanted = [...sign].map((letter) => letter.codePointAt(0) ?? 0);
  // A break of the line has no shape.
  if (/^\s$/.test(sign) && sign !== ' ') return before ?? facesOf[style][0] ?? null;
  const holds = (face: Face): boolean =>
    wanted.every((code) => face.has(code) || (wanted.length > 1 && shapeless.test(String.fromCodePoint(code))));
  // Blanks and marks stay with the letters before them, so that these are shaped together.
  if (before && /^[^\p{L}\p{N}]+$/u.test(sign) && holds(before)) return before;
  return facesOf[style].find(holds) ?? null;
}

/** Offsets before which a line may end; true where it has to. */
function breaksOf(text: string): ReadonlyMap<number, boolean> {
  const breaker = new LineBreaker(text);
  const breaks = new Map<number, boolean>();
  for (let at = breaker.nextBreak(); at; at = breaker.nextBreak()) breaks.set(at.position, at.required === true);
  return breaks;
}

/** Sums in another order differ by less. */
const rounding = 1e-6;

const isBlank = (piece: Letter): boolean => /^\s+$/.test(piece.text);

function endOfLine(
  pieces: readonly Letter[],
  from: number,
  width: number,
  breaks: ReadonlyMap<number, boolean>,
): number {
  let used = 0;
  let lastBreak = from;
  for (let at = from; at < pieces.length; at += 1) {
    const piece = pieces[at] as Letter;
    const breakBefore = at > from ? breaks.get(piece.start) : undefined;
    if (breakBefore !== undefined) lastBreak = at;
    if (breakBefore === true) return at;
    used += widthOfPiece(piece);
    // A blank at the end of a line takes no room.
    if (used > width + rounding && !isBlank(piece)) return lastBreak > from ? lastBreak : Math.max(at, from + 1);
  }
  return pieces.length;
}

function widthOfPiece({ text, face, inline }: Letter): number {
  if (face === null) return (nameWidth(text, inline.style) * nameScale + 2 * boxRoom) * inline.scale;
  return /^[\n\r\u2028\u2029\u0085]/.test(text) ? 0 : face.width(text, true) * inline.scale;
}

/** `U+99AC`, as the standard names a sign. */
export const nameOfSign = (sign: string): string =>
  [...sign].map((one) => `U+${(one.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`).join(' ');

const nameWidth = (sign: string, style: FaceStyle): number => facesOf[style][0]?.width(nameOfSign(sign), false) ?? 0;

/** Pieces that look alike and run the same way as one; then in the order in which they are seen. */
function lineOf(all: readonly Letter[], fromRight: boolean): SetLine {
  const pieces = all.slice(0, all.findLastIndex((piece) => !isBlank(piece)) + 1);
  const runs: Letter[][] = [];
  for (const piece of pieces) {
    const last = runs.at(-1);
    const [first] = last ?? [];
    const joins =
      first &&
      first.face !== null &&
      first.face === piece.face &&
      first.inline === piece.inline &&
      first.level === piece.level;
    if (last && joins) last.push(piece);
    else runs.push([piece]);
  }
  let x = 0;
  const drawn = inOrderSeen(runs).map((run): Run => {
    const [{ face, inline, level }] = run as [Letter];
    const toLeft = level % 2 === 1;
    const said = run.map((piece) => piece.text.replace(/\s/, ' ')).join('');
    const shaped = face !== null && toLeft ? turned(said) : said;
    const width =
      face === null
        ? (nameWidth(said, inline.style) * nameScale + 2 * boxRoom) * inline.scale
        : face.width(shaped, toLeft) * inline.scale;
    const placed = { text: shaped, said, face, inline, x, width, toLeft };
    x += width;
    return placed;
  });
  return { runs: drawn, width: x, fromRight };
}

/** Marks that have a twin for the other direction take it. What fontkit does not turn itself, as it has no letter that runs to the left, is turned. */
function turned(said: string): string {
  const mirrored = [...said].map((letter) => bidi.getMirroredCharacter(letter) ?? letter);
  return isArabic.test(said) ? mirrored.join('') : mirrored.toReversed().join('');
}

/** Rule L2 of the Unicode bidirectional algorithm (UAX #9), by stretches of one level. */
function inOrderSeen(runs: readonly Letter[][]): Letter[][] {
  const order = [...runs];
  const levelOf = (run: Letter[] | undefined): number => run?.[0]?.level ?? 0;
  const highest = Math.max(0, ...order.map(levelOf));
  for (let level = highest; level >= 1; level -= 1)
    for (let from = 0; from < order.length; from += 1) {
      let to = from;
      while (to < order.length && levelOf(order[to]) >= level) to += 1;
      if (to > from) order.splice(from, to - from, ...order.slice(from, to).toReversed());
      from = to;
    }
  return order;
}
