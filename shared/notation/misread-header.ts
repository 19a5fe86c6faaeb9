import { findRow, rowsIn, type Container } from './vocabulary.ts';

/** Headers of level 0 that are slips: `case LF` for `cast LF` would cost a visit all its lines below. */

const wordsOf = (...places: readonly Container[]): ReadonlySet<string> =>
  new Set(places.flatMap((place) => rowsIn(place)).map(({ word }) => word));

const wordsIn: Readonly<Record<string, ReadonlySet<string>>> = {
  visit: wordsOf('visit', 'film', 'photo', 'tape', 'plan', 'trim', 'read'),
  case: wordsOf('case'),
};

/** Each header as it should be; of a visit's, that there is a figure of a date. */
const forms: Readonly<Record<string, RegExp>> = {
  hoof: /^\s*hoof\s+\d+\s*(?:#.*)?$/,
  case: /^\s*case\s*"(?:[^"\\]|\\.)*"\s*(?:#.*)?$/,
  limits: /^\s*limits\s*(?:#.*)?$/,
  visit: /^\s*visit\s[^"#]*\d/,
};

const lineEnd = /\r\n|\n|\r/g;
const beginning = /^\s*([^\s"#|,@=<>≥≤]+)\s*(@|[<>]=?|≥|≤)?\s*(-?\d)?/;

/**
 * Whether the line at `at`, which begins with the level-0 word `word` or nearly so, is a line of the block `above` it: because the lines below, up to
 * the next such word, are that block's; or because it is broken, and they are not its own. Looks no further than that next word.
 */
export function isMisread(
  text: string,
  at: number,
  { word, near }: { readonly word: string; readonly near: unknown },
  above: string,
  partAt: (text: string, at: number) => unknown,
): boolean {
  if (above === 'hoof') return false;
  const end = endOfLine(text, at);
  // What is nearly a header is one only where the rest of it is as it should be.
  const whole = near !== null || forms[word]?.test(text.slice(at, end).trimEnd()) === true;
  if (word === above) return !whole;
  let ofAbove = false;
  let ofItself = false;
  for (let next = end; next < text.length && partAt(text, next) === null;) {
    const after = endOfLine(text, next);
    const line = text.slice(next, after);
    const [inAbove, inItself] = [belongs(line, above), belongs(line, word)];
    ofAbove ||= inAbove && !inItself;
    ofItself ||= inItself && !inAbove;
    next = after;
  }
  return word === 'visit' ? ofAbove && !ofItself : ofAbove || (!whole && !ofItself);
}

/** Whether a line may stand in a level-0 block, by its first word and what follows. */
function belongs(line: string, block: string): boolean {
  if (/^\s*\|/.test(line)) return block === 'visit' || block === 'case';
  const [, word, sign, figure] = beginning.exec(line) ?? [];
  if (word === undefined) return false;
  if (sign === '@') return block === 'visit';
  if (sign !== undefined) return block === 'limits';
  // A line of a tape is a measure, which is no word of the notation, and a number.
  if (!findRow(word)) return block === 'visit' && figure !== undefined;
  return wordsIn[block]?.has(word) === true;
}

function endOfLine(text: string, start: number): number {
  lineEnd.lastIndex = start;
  return lineEnd.test(text) ? lineEnd.lastIndex : text.length;
}
