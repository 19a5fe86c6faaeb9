import { EmbeddedActionsParser, type IToken } from 'chevrotain';
import * as T from './tokens.ts';
import type { Item, Leaf, Line } from './tree.ts';

/**
 * Text to lines of items. Every alternative of the grammar ends in a catch-all, so that each text is a
 * sentence of it and a line that means nothing costs nothing but itself.
 */

const leaf = (token: IToken): Leaf => ({
  start: token.startOffset,
  end: token.startOffset + token.image.length,
  image: token.image,
});

const span = (from: { startOffset: number }, to: IToken) => ({
  start: from.startOffset,
  end: to.startOffset + to.image.length,
});

class LineParser extends EmbeddedActionsParser {
  constructor() {
    super(T.tokenTypes, { maxLookahead: 4, recoveryEnabled: false });
    this.performSelfAnalysis();
  }

  readonly lines = this.RULE('lines', (): Line[] => {
    const lines: Line[] = [];
    let start = 0;
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
        if (token.tokenType === T.Comment) comment = leaf(token);
        else if (items.length === 0) prose = leaf(token);
        else items.push({ kind: 'broken', ...leaf(token) });
      });
    });
    const end = this.CONSUME(T.LineEnd);
    return { start, end: end.startOffset + end.image.length, items, prose, comment };
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
    const first = this.CONSUME(T.Num);
    let item: Item = { kind: 'number', number: leaf(first), unit: null, ...span(first, first) };
    let single = true;
    this.OPTION({
      GATE: () => this.LA(2).tokenType === T.Num,
      DEF: () => {
        this.CONSUME(T.Comma);
        const second = this.CONSUME2(T.Num);
        single = false;
        item = { kind: 'point', x: leaf(first), y: leaf(second), ...span(first, second) };
        this.OPTION2({
          GATE: () =>
            this.LA(2).tokenType === T.Num && this.LA(3).tokenType === T.Comma && this.LA(4).tokenType === T.Num,
          DEF: () => {
            this.CONSUME(T.Range);
            const third = this.CONSUME3(T.Num);
            this.CONSUME2(T.Comma);
            const fourth = this.CONSUME4(T.Num);
            item = {
              kind: 'segment',
              from: [leaf(first), leaf(second)],
              to: [leaf(third), leaf(fourth)],
              ...span(first, fourth),
            };
          },
        });
      },
    });
    this.OPTION3({
      GATE: () => single,
      DEF: () => {
        const unit = this.CONSUME(T.Word);
        item = { kind: 'number', number: leaf(first), unit: leaf(unit), ...span(first, unit) };
      },
    });
    return item;
  });

  private readonly quoted = this.RULE('quoted', (): Item => {
    const token = this.OR([{ ALT: () => this.CONSUME(T.Text) }, { ALT: () => this.CONSUME(T.OpenText) }]);
    return this.ACTION((): Item =>
      token.tokenType === T.Text
        ? { kind: 'text', value: unquote(token.image), ...leaf(token) }
        : { kind: 'broken', ...leaf(token) },
    );
  });

  private readonly plain = this.RULE('plain', (): Item => {
    const token = this.OR([
      { ALT: () => this.CONSUME(T.Word) },
      { ALT: () => this.CONSUME(T.Because) },
      { ALT: () => this.CONSUME(T.DateLike) },
      { ALT: () => this.CONSUME(T.Range) },
      { ALT: () => this.CONSUME(T.Comma) },
      { ALT: () => this.CONSUME(T.Spread) },
      { ALT: () => this.CONSUME(T.Relation) },
      { ALT: () => this.CONSUME(T.Sign) },
      { ALT: () => this.CONSUME(T.Strange) },
    ]);
    return this.ACTION((): Item => ({ kind: plainKind(token), ...leaf(token) }));
  });
}

function plainKind(token: IToken): 'word' | 'date' | 'sign' | 'broken' {
  switch (token.tokenType) {
    case T.Word:
    case T.Because:
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
  const complete = /[\r\n]$/.test(text) ? text : `${text}\n`;
  const { tokens, errors } = T.lex(complete);
  parser.input = tokens;
  const lines = parser.lines();
  if (errors.length > 0 || parser.errors.length > 0)
    throw new Error(`the line grammar is not total: ${(errors[0] ?? parser.errors[0])?.message}`);
  const last = lines.at(-1);
  if (complete === text || !last) return lines;
  if (last.start === text.length) return lines.slice(0, -1);
  return [...lines.slice(0, -1), { ...last, end: text.length }];
}
