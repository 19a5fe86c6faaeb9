import { ofScale } from './check-numbers.ts';
import { usualUnit } from './units.ts';
import { parse } from './parse.ts';
import type { Edit } from './problems.ts';
import type { Block, Entry, Item, Line, Prose, Statement } from './tree.ts';

/**
 * The one layout of a case file. Columns are fixed for each kind of block, so that a new line never moves its
 * neighbours and a diff shows what was said. Lines that are broken stay as they are, to the letter.
 */

export interface IndentedLine {
  readonly entry: Statement | Prose;
  /** How many blocks the line stands in. */
  readonly depth: number;
  readonly within: string;
}

interface FormattedLine {
  /** The line as it should be, without its end. */
  readonly text: string;
  readonly blankBefore: boolean;
}

const columns: Readonly<Record<string, number>> = {
  case: 10,
  visit: 11,
  film: 8,
  photo: 8,
  plan: 6,
  trim: 6,
  tape: 20,
  limits: 20,
};
/** Where the sign of a placing stands, counted from the line's indentation. */
export const landmarkColumn = 18;

/** Where what a word of this block says begins, counted the same. */
export function columnOf(block: string): number {
  return columns[block] ?? 0;
}

/** How wide the word that begins a line is set in a block, from its indentation. */
export function columnIn(block: string): number {
  return columns[block] ?? 0;
}

export function format(text: string): string {
  let result = '';
  let from = 0;
  for (const edit of formatEdits(text)) {
    result += text.slice(from, edit.start) + edit.text;
    from = edit.end;
  }
  return result + text.slice(from);
}

/** The changes that lay the text out, in order, at most one a line; none where it is laid out already. */
export function formatEdits(text: string): Edit[] {
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? /\r/.exec(text)?.[0] ?? '\n';
  const edits: Edit[] = [];
  const state: FormatterState = { previous: null, blanks: [], wrote: false, following: () => undefined };
  const replace = (at: number, raw: string, wanted: string): void => {
    // A byte order mark is no part of the layout.
    const kept = at === 0 && text.startsWith('\ufeff') ? `\ufeff${wanted}` : wanted;
    if (kept !== raw) edits.push({ start: at, end: at + raw.length, text: kept });
  };
  /** Of the blank lines before a line the first stays where one is wanted. */
  const settleBlanks = (wanted: boolean): void => {
    state.blanks.forEach(({ at, raw }, index) => replace(at, raw, wanted && index === 0 ? lineEnd : ''));
    state.blanks = [];
  };
  for (const { start, block } of parse(text).blocks) {
    const placed = placesOf(block);
    state.following = following(placed);
    block.lines.forEach((line, number) => {
      const raw = block.text.slice(line.start, line.end);
      const at = start + line.start;
      if (line.items.length === 0 && !line.prose && !line.comment) {
        state.blanks.push({ at, raw });
        return;
      }
      const body = raw.replace(/(?:\r\n|\n|\r)$/, '').replace(at === 0 ? /^\ufeff/ : /^(?!)/, '');
      const hadBlank = state.blanks.length > 0;
      const row = layOut(block, line, number, body, placed, state);
      settleBlanks(row.blankBefore);
      replace(at, raw, `${row.blankBefore && !hadBlank ? lineEnd : ''}${row.text}${lineEnd}`);
    });
  }
  settleBlanks(false);
  return edits;
}

interface FormatterState {
  /** The last line written: its depth, and whether it was a header or a remark that belongs to what follows. */
  previous: { depth: number; opens: boolean; remark: boolean } | null;
  /** Blank lines since the last line written. */
  blanks: { at: number; raw: string }[];
  wrote: boolean;
  /** What is placed next behind a line of the block. */
  following: (number: number) => IndentedLine | undefined;
}

function layOut(
  block: Block,
  line: Line,
  number: number,
  body: string,
  placed: ReadonlyMap<number, IndentedLine>,
  state: FormatterState,
): FormattedLine {
  const here = placed.get(number);
  const remark = !here && line.items.length === 0;
  const next = remark ? state.following(number) : undefined;
  const depth = (here ?? next)?.depth ?? state.previous?.depth ?? 0;
  const header = here?.entry.kind === 'header' || (remark && next?.entry.kind === 'header');
  const blankBefore = state.wrote && (state.blanks.length > 0 || wantsBlank(state.previous, depth, header));
  state.wrote = true;
  state.previous = { depth, opens: here?.entry.kind === 'header', remark };
  return { text: written(block, line, body, here, depth, remark), blankBefore };
}

function wantsBlank(previous: FormatterState['previous'], depth: number, header: boolean): boolean {
  if (!previous || previous.remark) return false;
  if (header) return depth === 0 || (depth === 1 && !previous.opens);
  return depth < previous.depth && !previous.opens;
}

function written(
  block: Block,
  line: Line,
  body: string,
  here: IndentedLine | undefined,
  depth: number,
  remark: boolean,
): string {
  const indent = '  '.repeat(depth);
  if (remark) return `${indent}${line.comment?.image.trimEnd() ?? ''}`;
  if (!here) return body;
  if (here.entry.kind === 'prose') return `${indent}${here.entry.image}`;
  if (!here.entry.whole || here.entry.misspelt) return body;
  const statement = `${indent}${statementText(block, here.entry, line, here.within)}`;
  if (!line.comment) return statement;
  // A remark stays in its column as long as there is room, so that remarks under one another stay so.
  const column = Math.max(line.comment.start - line.start, statement.length + 2);
  return `${statement.padEnd(column)}${line.comment.image.trimEnd()}`;
}

function statementText(block: Block, statement: Statement, line: Line, within: string): string {
  const rest = line.items.slice(1);
  const first = rest[0];
  const code = statement.row?.takes.some((form) => form.some((argument) => argument.take === 'code'));
  // A code is one piece to the reader, whatever the lexer made of it.
  const items =
    code && first
      ? [block.text.slice(first.start, statement.end)]
      : rest
          .filter((_, at) => !isOfScale(rest[at - 1]))
          .map((item) => itemText(block, item, statement.kind === 'placing'));
  const column = statement.kind === 'header' ? 0 : statement.kind === 'placing' ? landmarkColumn : columnIn(within);
  const head = items.length > 0 ? `${statement.word} `.padEnd(column) : statement.word;
  return head + items.join(' ');
}

function itemText(block: Block, item: Item, aligned: boolean): string {
  switch (item.kind) {
    case 'number':
      if (!item.unit || item.unit.image === ofScale) return item.number.image;
      return `${item.number.image} ${usualUnit(item.unit.image, item.number.image)}`;
    case 'point':
      return aligned ? `${padded(item.x.image)}, ${padded(item.y.image)}` : `${item.x.image}, ${item.y.image}`;
    case 'segment':
      return `${item.from[0].image}, ${item.from[1].image} .. ${item.to[0].image}, ${item.to[1].image}`;
    case 'sign':
      return plainSigns[item.image] ?? item.image;
    default:
      return block.text.slice(item.start, item.end);
  }
}

/** `2 of 5` says what `2` says: the scale is known. */
function isOfScale(before: Item | undefined): boolean {
  return before?.kind === 'number' && before.unit?.image === ofScale;
}

const plainSigns: Readonly<Record<string, string>> = { '±': '+-', '≥': '>=', '≤': '<=' };

/** Whole pixels of up to four figures stand under one another. */
export function padded(image: string): string {
  const [whole = '', ...fraction] = image.split('.');
  return [whole.padStart(4), ...fraction].join('.');
}

/** Where each statement and line of prose belongs, by the number of its line in the block. */
export function placesOf(block: Block): Map<number, IndentedLine> {
  const places = new Map<number, IndentedLine>();
  const visit = (entries: readonly Entry[], depth: number, within: string): void => {
    for (const entry of entries) {
      if (entry.kind !== 'group') places.set(entry.line, { entry, depth, within });
      else {
        places.set(entry.header.line, { entry: entry.header, depth, within });
        visit(entry.entries, depth + 1, entry.row.word);
      }
    }
  };
  if (block.header && block.row) {
    places.set(block.header.line, { entry: block.header, depth: 0, within: '' });
    visit(block.entries, 1, block.row.word);
  } else visit(block.entries, 0, '');
  return places;
}

/** What is placed next behind a line; asked from the first line to the last. */
function following(placed: ReadonlyMap<number, IndentedLine>): (number: number) => IndentedLine | undefined {
  const lines = [...placed.keys()].sort((a, b) => a - b);
  let next = 0;
  return (number) => {
    while ((lines[next] ?? Infinity) <= number) next++;
    return placed.get(lines[next] ?? Infinity);
  };
}
