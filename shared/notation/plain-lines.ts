import type { Item, Leaf, Line } from './tree.ts';

/**
 * Lines in plain writing, read in one walk over their characters and without the grammar: words of ASCII letters,
 * numbers, dates as YYYY-MM-DD, texts without a backslash, the usual signs, prose and remarks. Nearly every line of
 * a case is one. At anything else the walk gives up and the grammar reads the line; it is the grammar that says
 * what a line is, and `tests/property/plain-lines.test.ts` holds the two against each other.
 */

const letter = 1;
const digit = 2;
const blank = 4;
const lineEnd = 8;

const kinds = new Uint8Array(128);
for (const [characters, kind] of [
  ['ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_', letter],
  ['0123456789', digit],
  [' \t', blank],
  ['\r\n', lineEnd],
] as const)
  for (const character of characters) kinds[character.charCodeAt(0)] = kind;

/** 0 for every other character, and behind the end of the text. */
const kindOf = (code: number): number => (code < 128 ? (kinds[code] as number) : 0);

const lineFeed = 10;
const carriageReturn = 13;
const quote = 34;
const hash = 35;
const percent = 37;
const plus = 43;
const comma = 44;
const dash = 45;
const dot = 46;
const slash = 47;
const less = 60;
const equals = 61;
const more = 62;
const at = 64;
const backslash = 92;
const bar = 124;

export class PlainLines {
  private readonly text: string;
  /** Where the walk is. */
  private here = 0;
  /** Whether all is plain so far. */
  private plain = true;
  /** The items of the line that is read: an array cut from it is as long as it must be, and one that grows is not. */
  private readonly items: Item[] = [];

  constructor(text: string) {
    this.text = text;
  }

  /** The line that begins at `start`, or null where it is not plain. */
  read(start: number): Line | null {
    const { text, items } = this;
    let count = 0;
    let prose: Leaf | null = null;
    let comment: Leaf | null = null;
    this.plain = true;
    this.here = start;
    for (;;) {
      this.here = this.skipBlanks(this.here);
      const code = text.charCodeAt(this.here);
      if (kindOf(code) === lineEnd || this.here === text.length) break;
      if (code === hash) comment = this.restOfLine();
      else if (code === bar && count === 0) prose = this.restOfLine();
      else {
        const item = this.item(code);
        if (!item || !this.plain) return null;
        items[count++] = item;
      }
    }
    return { start, end: this.behindLineEnd(), items: items.slice(0, count), prose, comment };
  }

  private item(code: number): Item | null {
    switch (kindOf(code)) {
      case letter:
        return this.piece('word', this.wordEnd(this.here));
      case digit:
        return this.date() ?? this.figure();
    }
    const next = this.text.charCodeAt(this.here + 1);
    switch (code) {
      case at:
      case equals:
      case comma:
        return this.piece('sign', this.here + 1);
      case quote:
        return this.quoted();
      case percent:
        return this.piece('word', this.here + 1);
      case dash:
        return kindOf(next) === digit ? this.figure() : null;
      case less:
      case more:
        return this.piece('sign', this.here + (next === equals ? 2 : 1));
      case dot:
        return next === dot ? this.piece('sign', this.here + 2) : null;
      case plus:
        return next === dash ? this.piece('sign', this.here + 2) : null;
      default:
        return null;
    }
  }

  private piece(kind: 'word' | 'sign' | 'date', end: number): Item {
    const start = this.here;
    this.here = end;
    return { kind, start, end, image: this.text.slice(start, end) };
  }

  private quoted(): Item | null {
    const { text, here: start } = this;
    let end = start + 1;
    for (let code = text.charCodeAt(end); code !== quote; code = text.charCodeAt(++end))
      if (end >= text.length || code === backslash || kindOf(code) === lineEnd) return null;
    this.here = end + 1;
    return { kind: 'text', value: text.slice(start + 1, end), start, end: end + 1, image: text.slice(start, end + 1) };
  }

  private date(): Item | null {
    const { text, here } = this;
    if (text.charCodeAt(here + 4) !== dash || text.charCodeAt(here + 7) !== dash) return null;
    for (let index = 0; index < 10; index++)
      if (index !== 4 && index !== 7 && kindOf(text.charCodeAt(here + index)) !== digit) return null;
    const after = kindOf(text.charCodeAt(here + 10));
    const ends = after === blank || after === lineEnd || here + 10 === text.length;
    return ends ? this.piece('date', here + 10) : null;
  }

  /** A number with its unit, a point, or a segment. */
  private figure(): Item {
    const first = this.number(this.here) as Leaf;
    const second = this.numberAfter(first, comma);
    if (!second) return this.withUnit(first);
    const third = this.numberAfter(second, dot);
    const fourth = third && this.numberAfter(third, comma);
    const { start } = first;
    this.here = (fourth ?? second).end;
    return third && fourth
      ? { kind: 'segment', from: [first, second], to: [third, fourth], start, end: fourth.end }
      : { kind: 'point', x: first, y: second, start, end: second.end };
  }

  private withUnit(number: Leaf): Item {
    const { text } = this;
    const { start } = number;
    const from = this.skipBlanks(number.end);
    const code = text.charCodeAt(from);
    const end = kindOf(code) === letter ? this.wordEnd(from) : code === percent ? from + 1 : from;
    const image = text.slice(from, end);
    this.here = number.end;
    if (end === from || image === 'because' || image === 'followed')
      return { kind: 'number', number, unit: null, start, end: number.end };
    this.here = end;
    return { kind: 'number', number, unit: { start: from, end, image }, start, end };
  }

  /** The number that follows behind a comma or, where the sign is a dot, behind two of them. */
  private numberAfter(before: Leaf, sign: number): Leaf | null {
    const { text } = this;
    const from = this.skipBlanks(before.end);
    if (text.charCodeAt(from) !== sign) return null;
    if (sign === comma) return this.number(this.skipBlanks(from + 1));
    return text.charCodeAt(from + 1) === dot ? this.number(this.skipBlanks(from + 2)) : null;
  }

  private number(start: number): Leaf | null {
    const { text } = this;
    let end = text.charCodeAt(start) === dash ? start + 1 : start;
    if (kindOf(text.charCodeAt(end)) !== digit) return null;
    end = this.digitsEnd(end);
    if (text.charCodeAt(end) === dot && kindOf(text.charCodeAt(end + 1)) === digit) end = this.digitsEnd(end + 1);
    const after = text.charCodeAt(end);
    // It may be a date in another form.
    if (after === dash || after === dot || after === slash) this.plain = false;
    return { start, end, image: text.slice(start, end) };
  }

  private digitsEnd(from: number): number {
    let end = from;
    while (kindOf(this.text.charCodeAt(end)) === digit) end++;
    return end;
  }

  private wordEnd(from: number): number {
    const { text } = this;
    let end = from + 1;
    for (;;) {
      const code = text.charCodeAt(end);
      if ((kindOf(code) & (letter | digit)) !== 0) end += 1;
      else if ((code === dot || code === dash || code === slash) && this.isInWord(end + 1)) end += 2;
      else break;
    }
    if (text.charCodeAt(end) >= 128) this.plain = false;
    return end;
  }

  private isInWord(place: number): boolean {
    return (kindOf(this.text.charCodeAt(place)) & (letter | digit)) !== 0;
  }

  private skipBlanks(from: number): number {
    let next = from;
    while (kindOf(this.text.charCodeAt(next)) === blank) next++;
    return next;
  }

  private restOfLine(): Leaf {
    const { text, here: start } = this;
    let end = start;
    while (end < text.length && kindOf(text.charCodeAt(end)) !== lineEnd) end++;
    this.here = end;
    return { start, end, image: text.slice(start, end) };
  }

  private behindLineEnd(): number {
    const { text, here } = this;
    if (here === text.length) return here;
    return text.charCodeAt(here) === carriageReturn && text.charCodeAt(here + 1) === lineFeed ? here + 2 : here + 1;
  }
}
