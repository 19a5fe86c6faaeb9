import { landmarkNames } from './landmarks.ts';
import { nearestMeaning } from './meanings.ts';
import type { Span } from './span.ts';
import { datePattern, writtenDay } from './written-day.ts';
import { blocks, findRow, statements } from './vocabulary.ts';

/**
 * Lines that are nearly the header of a part of the file: `vist 2026-04-04`, `Visit: 2026-04-04`, `2026-04-04`, `Limits`. What stands
 * below one would else be told of the part above it: a sign of the wrong day, a cut on the wrong film. Each looks at its line alone.
 */
export interface NearPart {
  readonly word: 'visit' | 'case' | 'limits';
  /** What stands for the word, and is read as it: from its first sign to where its argument begins. */
  readonly head: Span & { readonly image: string };
  /** Of a visit, its date as it is written, in one usual form where there can be only one. */
  readonly date: (Span & { readonly image: string }) | null;
}

const known = [...blocks, ...statements].map(({ word }) => word);
const everything: readonly string[] = [...known, ...landmarkNames];
const whole: ReadonlySet<string> = new Set(everything);

const word = '(?<word>\\p{L}[\\p{L}\\d]{1,10}\\p{L}(?:-?\\p{L}{2,6})?)';
const begin = '(?<blank>[^\\S\\r\\n]*)(?:[-*+>•–][^\\S\\r\\n]*)?';
const between = '[^\\S\\r\\n]*[-:;.,=(/_–]*[^\\S\\r\\n]*';
/** `vist on 2026-04-04`, `vist "second look" 2026-04-04`. */
const aside = '(?:(?:\\p{L}{2,10}[.,]?|"[^"\\r\\n]*")[^\\S\\r\\n]+)?';

/** A date with a slip of its own, `206-04-04`: behind what is nearly the word it is meant for one. */
const unsure = '\\d[\\p{L}\\d]*[-./–][\\p{L}\\d./–-]+';

const nearVisit = new RegExp(`${begin}${word}${between}${aside}(?<date>${datePattern}|${unsure})`, 'iuy');
const bareDate = new RegExp(`(?:[-*+>•–][^\\S\\r\\n]*)?(?<date>${datePattern})`, 'iuy');
const nearCase = new RegExp(
  `${word}[^\\S\\r\\n]*[:=]?[^\\S\\r\\n]*(?="[^"\\r\\n]+"[^\\S\\r\\n]*(?:#|[\\r\\n]|$))`,
  'iuy',
);
const nearLimits = new RegExp(`${word}[^\\S\\r\\n]*:?[^\\S\\r\\n]*(?=#|[\\r\\n]|$)`, 'iuy');

/** What the line that begins at `at` nearly is; null where it begins with a word of the notation, or is near none of these. */
export function nearPartAt(text: string, at: number): NearPart | null {
  if (isPlain(text, at)) return null;
  return (
    visitAt(text, at) ??
    tornAt(text, at) ??
    dateAt(text, at) ??
    atMargin(text, at, nearCase, 'case') ??
    atMargin(text, at, nearLimits, 'limits')
  );
}

/** Nearly every line: it is empty, a remark or prose, or begins with a word of the notation and a blank. Found out without an expression. */
function isPlain(text: string, at: number): boolean {
  let first = at;
  while (text.charCodeAt(first) === 32 || text.charCodeAt(first) === 9) first++;
  const code = text.charCodeAt(first);
  if (!(code > 32) || code === 35 || code === 124) return true;
  let end = first;
  while (text.charCodeAt(end) > 32) end++;
  return whole.has(text.slice(first, end));
}

/** `visi t2026-04-04`, `visit2 026-04-04`: a blank one place off. */
const torn = /(?<blank>[^\S\r\n]*)v ?i ?s ?i ?t[ :]*(?<date>\d(?: ?\d){3}-\d\d-\d\d)(?!\d)/iy;

function tornAt(text: string, at: number): NearPart | null {
  torn.lastIndex = at;
  const found = torn.exec(text);
  const { blank = '', date = '' } = found?.groups ?? {};
  if (!found) return null;
  const end = at + found[0].length;
  const start = end - date.length;
  const image = date.replaceAll(' ', '');
  return { word: 'visit', head: piece(text, at + blank.length, start), date: { start, end, image } };
}

function visitAt(text: string, at: number): NearPart | null {
  nearVisit.lastIndex = at;
  const found = nearVisit.exec(text);
  const { blank = '', word: written = '', date = '' } = found?.groups ?? {};
  if (!found || !isNearly(written, 'visit')) return null;
  const end = at + found[0].length;
  return {
    word: 'visit',
    head: piece(text, at + blank.length, end - date.length),
    date: dayAt(text, end - date.length, end),
  };
}

/** A date where a header stands, at the margin. */
function dateAt(text: string, at: number): NearPart | null {
  const code = text.charCodeAt(at);
  // Letters begin one too, that of a month: they are told from words by what follows.
  if (!(code > 32)) return null;
  bareDate.lastIndex = at;
  const found = bareDate.exec(text);
  if (!found) return null;
  const end = at + found[0].length;
  const start = end - (found.groups?.['date'] ?? '').length;
  return { word: 'visit', head: piece(text, at, start), date: dayAt(text, start, end) };
}

function atMargin(text: string, at: number, form: RegExp, meant: 'case' | 'limits'): NearPart | null {
  form.lastIndex = at;
  const found = form.exec(text);
  if (!found || !isNearly(found.groups?.['word'] ?? '', meant)) return null;
  return { word: meant, head: piece(text, at, at + found[0].trimEnd().length), date: null };
}

/** Whether a word is one of the notation but for a slip, or for what follows it. */
function isNearly(written: string, meant: NearPart['word']): boolean {
  const small = written.toLowerCase();
  if (small === meant) return true;
  return findRow(written) === undefined && nearestMeaning(small, everything) === meant;
}

const piece = (text: string, start: number, end: number): Span & { image: string } => ({
  start,
  end,
  image: text.slice(start, end),
});

function dayAt(text: string, start: number, end: number): NearPart['date'] {
  const image = text.slice(start, end);
  return { start, end, image: writtenDay(image) ?? image };
}
