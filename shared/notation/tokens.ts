import { fraction } from './fraction.ts';
import { createToken, Lexer, type ILexingResult, type TokenType } from 'chevrotain';

/**
 * The words and signs of the notation. The last token takes any character that no other one does, so that
 * the lexer never fails and never skips anything but blanks.
 */

const letters = 'A-Za-z\\u00b0\\u00b5\\u00c0-\\u024f\\u0370-\\u052f';

/** Every blank of JavaScript's `\s` but the ends of a line. */
const blanks = [
  ...'\t\v\f \u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u2028\u2029\u202f\u205f\u3000\ufeff',
];

/** Any other character may begin something strange; the lexer wants to be told which. */
const anything = Array.from({ length: 0x10000 }, (_, code) => code).filter((code) => code !== 10 && code !== 13);

export const Blank = createToken({
  name: 'Blank',
  pattern: /[^\S\r\n]+/,
  group: Lexer.SKIPPED,
  start_chars_hint: blanks,
});
export const LineEnd = createToken({ name: 'LineEnd', pattern: /\r\n|\n|\r/, line_breaks: true });
export const Comment = createToken({ name: 'Comment', pattern: /#[^\r\n]*/ });
export const Prose = createToken({ name: 'Prose', pattern: /\|[^\r\n]*/ });
export const Text = createToken({ name: 'Text', pattern: /"(?:[^"\\\r\n]|\\[^\r\n])*"/ });
export const OpenText = createToken({ name: 'OpenText', pattern: /"(?:[^"\\\r\n]|\\[^\r\n])*\\?/ });
export const DateLike = createToken({
  name: 'DateLike',
  pattern:
    /\d{4}-\d{1,2}(?:-\d{1,2})?(?![\w.-])|\d{4}[./]\d{1,2}[./]\d{1,2}(?![\w.])|\d{1,2}[./]\d{1,2}[./]\d{4}(?![\w.])/,
});
export const Num = createToken({ name: 'Number', pattern: new RegExp(`${fraction.source}|-?\\d+(?:\\.\\d+)?`) });
export const Word = createToken({
  name: 'Word',
  pattern: new RegExp(`[${letters}_](?:[${letters}0-9_]|[.\\-/](?=[${letters}0-9_]))*|%`),
  line_breaks: false,
});
export const Range = createToken({ name: 'Range', pattern: '..' });
export const Comma = createToken({ name: 'Comma', pattern: ',' });
export const Spread = createToken({ name: 'Spread', pattern: /\+-|±/ });
export const Relation = createToken({ name: 'Relation', pattern: /[<>]=?|[≤≥]/ });
export const Sign = createToken({ name: 'Sign', pattern: /[@=]/ });
export const Strange = createToken({
  name: 'Strange',
  pattern: /[^\s"#|,@=]+/,
  line_breaks: false,
  start_chars_hint: anything,
});

/** `because` would be read as a unit after a bare number; as a token of its own the missing unit is seen. */
export const Because = createToken({ name: 'Because', pattern: /because/, longer_alt: Word });

/** The same of `followed` behind a spread. */
export const Followed = createToken({ name: 'Followed', pattern: /followed/, longer_alt: Word });

export const tokenTypes: TokenType[] = [
  Blank,
  LineEnd,
  Comment,
  Prose,
  Text,
  OpenText,
  DateLike,
  Num,
  Because,
  Followed,
  Word,
  Range,
  Comma,
  Spread,
  Relation,
  Sign,
  Strange,
];

const lexer = new Lexer(tokenTypes, { positionTracking: 'onlyOffset', ensureOptimizations: true });

export function lex(text: string): ILexingResult {
  return lexer.tokenize(text);
}
