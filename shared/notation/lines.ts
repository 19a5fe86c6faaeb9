import { EmbeddedActionsParser, type IToken } from 'chevrotain';
import { inDigits } from './fraction.ts';
import { PlainLines } from './plain-lines.ts';
import * as T from './tokens.ts';
import type { Item, Leaf, Line } from './tree.ts';

/**
 * Text to lines of items. Every alternative of the grammar ends in a catch-all, so that each text is a
 * sentence of it and a line that means nothing costs nothing but itself.
 */

class LineParser extends EmbeddedActionsParser {
  /** Where the text that is read begins: places are counted from there. */
  private base = 0;

  constructor() {
    super(T.tokenTypes, { maxLookahead: 4, recoveryEnabled: false });
    this.performSelfAnalysis();
  }

  read(tokens: IToken[], base: number): Line[] {
    this.input = tokens;
    this.base = base;
    return this.lines();
  }

  private leaf(token: IToken): Leaf {
    const start = this.base + token.startOffset;
    return { start, end: start + token.image.length, image: token.image };
  }

  private numeral(token: IToken): Leaf {
    const leaf = this.leaf(token);
    // While the grammar is recorded a token has no image.
    if (!token.image?.includes('/')) return leaf;
    return { ...leaf, image: inDigits(leaf.image), fraction: leaf.image };
  }

  private readonly lines = this.RULE('lines', (): Line[] => {
    const lines: Line[] = [];
    let start = this.base;
    this.MANY(() => {
      const line = this.SUBRULE(this.line, { ARGS: [start] });
      start = line.end;
      lines.push(line);
    });
    return lines;
  });

  private readonly line = this.RULE('line', (start: number): Line => {
    const items: Item[] = [];
    let prose: Leaf | null = null;
    let comment: Leaf | null = null;
    this.MANY(() => {
      const item = this.SUBRULE(this.item);
      items.push(item);
    });
    this.OPTION(() => {
      const token = this.OR([{ ALT: () => this.CONSUME(T.Comment) }, { ALT: () => this.CONSUME(T.Prose) }]);
      this.ACTION(() => {
        if (token.tokenType === T.Comment) comment = this.leaf(token);
        else if (items.length === 0) prose = this.leaf(token);
        else items.push({ kind: 'broken', ...this.leaf(token) });
      });
    });
    const end = this.CONSUME(T.LineEnd);
    return { start, end: this.leaf(end).end, items, prose, comment };
  });

  private readonly item = this.RULE('item', (): Item =>
    this.OR([
      { ALT: () => this.SUBRULE(this.figure) },
      { ALT: () => this.SUBRULE(this.quoted) },
      { ALT: () => this.SUBRULE(this.plain) },
    ]),
  );

  /** A number with its unit, a point, or a segment: all begin alike, and only the whole of one is taken for it. */
  private readonly figure = this.RULE('figure', (): Item => {
    const first = this.numeral(this.CONSUME(T.Num));
    const { start } = first;
    let item: Item = { kind: 'number', number: first, unit: null, start, end: first.end };
    let single = true;
    this.OPTION({
      GATE: () => this.LA(2).tokenType === T.Num,
      DEF: () => {
        this.CONSUME(T.Comma);
        const second = this.numeral(this.CONSUME2(T.Num));
        single = false;
        item = { kind: 'point', x: first, y: second, start, end: second.end };
        this.OPTION2({
          GATE: () =>
            this.LA(2).tokenType === T.Num && this.LA(3).tokenType === T.Comma && this.LA(4).tokenType === T.Num,
          DEF: () => {
            this.CONSUME(T.Range);
            const third = this.numeral(this.CONSUME3(T.Num));
            this.CONSUME2(T.Comma);
            const fourth = this.numeral(this.CONSUME4(T.Num));
            item = { kind: 'segment', from: [first, second], to: [third, fourth], start, end: fourth.end };
          },
        });
      },
    });
    this.OPTION3({
      GATE: () => single,
      DEF: () => {
        const unit = this.leaf(this.CONSUME(T.Word));
        item = { kind: 'number', number: first, unit, start, end: unit.end };
      },
    });
    return item;
  });

  private readonly quoted = this.RULE('quoted', (): Item => {
    const token = this.OR([{ ALT: () => this.CONSUME(T.Text) }, { ALT: () => this.CONSUME(T.OpenText) }]);
    return this.ACTION((): Item =>
      token.tokenType === T.Text
        ? { kind: 'text', value: unquote(token.image), ...this.leaf(token) }
        : { kind: 'broken', ...this.leaf(token) },
    );
  });

  private readonly plain = this.RULE('plain', (): Item => {
    const token = this.OR([
      { ALT: () => this.CONSUME(T.Word) },
      { ALT: () => this.CONSUME(T.Because) },
      { ALT: () => this.CONSUME(T.Followed) },
      { ALT: () => this.CONSUME(T.DateLike) },
      { ALT: () => this.CONSUME(T.Range) },
      { ALT: () => this.CONSUME(T.Comma) },
      { ALT: () => this.CONSUME(T.Spread) },
      { ALT: () => this.CONSUME(T.Relation) },
      { ALT: () => this.CONSUME(T.Sign) },
      { ALT: () => this.CONSUME(T.Strange) },
    ]);
    return this.ACTION((): Item => ({ kind: plainKind(token), ...this.leaf(token) }));
  });
}

function plainKind(token: IToken): 'word' | 'date' | 'sign' | 'broken' {
  switch (token.tokenType) {
    case T.Word:
    case T.Because:
    case T.Followed:
      return 'word';
    case T.DateLike:
      return 'date';
    case T.Strange:
      return 'broken';
    default:
      return 'sign';
  }
}

/** The text between the quotes; an unknown escape keeps its backslash, so that nothing is lost. */
export function unquote(image: string): string {
  return image.slice(1, -1).replace(/\\(["\\])/g, '$1');
}

const parser = new LineParser();

/** Shapes: the lines of `text` in order, their spans joined end to end from 0 to `text.length`. */
export function parseLines(text: string): Line[] {
  const plain = new PlainLines(text);
  const lines: Line[] = [];
  let start = 0;
  while (start < text.length) {
    let line = plain.read(start);
    if (!line) {
      // Together with those that follow and are not plain either: the lexer takes as long to begin as for a line.
      let end = endOfLine(text, start);
      while (end < text.length && !(line = plain.read(end))) end = endOfLine(text, end);
      for (const strange of grammarLines(text, start, end)) lines.push(strange);
      start = end;
    }
    if (line) {
      lines.push(line);
      start = line.end;
    }
  }
  return lines;
}

/** The same of whole lines of a text, by the grammar alone. */
export function grammarLines(text: string, start = 0, end = text.length): Line[] {
  const part = text.slice(start, end);
  const complete = /[\r\n]$/.test(part) ? part : `${part}\n`;
  const { tokens, errors } = T.lex(complete);
  const lines = parser.read(tokens, start);
  if (errors.length > 0 || parser.errors.length > 0)
    throw new Error(`the line grammar is not total: ${(errors[0] ?? parser.errors[0])?.message}`);
  const last = lines.at(-1);
  if (complete === part || !last) return lines;
  if (last.start === end) return lines.slice(0, -1);
  return [...lines.slice(0, -1), { ...last, end }];
}

function endOfLine(text: string, start: number): number {
  const lineEnd = /\r\n|\n|\r/g;
  lineEnd.lastIndex = start;
  return lineEnd.test(text) ? lineEnd.lastIndex : text.length;
}
