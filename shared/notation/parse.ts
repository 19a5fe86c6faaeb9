import { codeImage } from './check-items.ts';
import { matchForms } from './match.ts';
import { nearest } from './nearest.ts';
import { findLandmark, landmarksOf, type View } from './landmarks.ts';
import { parseLines } from './lines.ts';
import type { Fix, Problem } from './problems.ts';
import type { Form } from './signature.ts';
import type {
  Block,
  Entry,
  Group,
  Item,
  Leaf,
  Line,
  PlacedBlock,
  Prose,
  Span,
  Statement,
  StatementKind,
  Tree,
} from './tree.ts';
import {
  blocks,
  findBlock,
  findRow,
  limitForms,
  placingForm,
  rowsIn,
  tapeForm,
  type BlockRow,
  type Place,
  type Row,
} from './vocabulary.ts';

/** Blocks already parsed, by their text. A pure parser makes that memory all there is to being incremental. */
export type BlockMemory = Map<string, Block>;

/** Never throws; the blocks' texts in order are the whole text. */
export function parse(text: string, memory?: BlockMemory): Tree {
  const placed: PlacedBlock[] = [];
  let line = 0;
  const fresh: BlockMemory = new Map();
  for (const { start, end } of splitBlocks(text)) {
    const part = text.slice(start, end);
    const block = memory?.get(part) ?? fresh.get(part) ?? parseBlock(part);
    fresh.set(part, block);
    placed.push({ start, line, block });
    line += block.lines.length;
  }
  if (memory) {
    memory.clear();
    for (const [part, block] of fresh) memory.set(part, block);
  }
  return { text, blocks: placed };
}

const headers = blocks.filter((row) => row.level === 0).map((row) => row.word);
const headerAtLineStart = new RegExp(
  `(?:^|\\r\\n|\\n|\\r)(?=[^\\S\\r\\n]*(?:${headers.join('|')})(?![^\\s"#|,@=]))`,
  'g',
);

/** Where each level-0 block begins; what stands before the first header is a block without one. */
export function splitBlocks(text: string): Span[] {
  const starts: number[] = [];
  for (const match of text.matchAll(headerAtLineStart)) starts.push(match.index + match[0].length);
  if (starts[0] !== 0) starts.unshift(0);
  return starts.map((start, index) => ({ start, end: starts[index + 1] ?? text.length }));
}

export function parseBlock(text: string): Block {
  return new BlockReader(text).read();
}

interface OpenGroup {
  readonly row: BlockRow | null;
  readonly header: Statement | null;
  readonly entries: Entry[];
  readonly start: number;
}

/** Puts the lines of one level-0 block into the group that each belongs to. */
class BlockReader {
  private readonly text: string;
  private readonly problems: Problem[] = [];
  private readonly open: OpenGroup[] = [];
  private end = 0;

  constructor(text: string) {
    this.text = text;
  }

  read(): Block {
    const lines = parseLines(this.text);
    const outermost: OpenGroup = { row: null, header: null, entries: [], start: 0 };
    this.open.push(outermost);
    lines.forEach((line, number) => this.place(line, number));
    this.closeTo(1);
    const first = outermost.entries[0];
    if (first?.kind === 'group' && first.row.level === 0)
      return {
        text: this.text,
        row: first.row,
        header: first.header,
        lines,
        entries: first.entries,
        problems: this.problems,
      };
    return { text: this.text, row: null, header: null, lines, entries: outermost.entries, problems: this.problems };
  }

  private place(line: Line, number: number): void {
    if (line.prose) return this.placeProse(line.prose, number);
    const first = line.items[0];
    if (!first) return;
    this.end = line.items.at(-1)?.end ?? first.end;
    const head = headOf(first);
    if (!head) {
      this.report({
        code: 'notation/unknown-word',
        at: first,
        message: `A line begins with a word such as ${
          rowsIn(this.here())
            .slice(0, 3)
            .map((row) => row.word)
            .join(', ') || 'visit'
        }; this one begins with ${shown(first)}.`,
        fixes: [],
      });
      return this.keep(
        line,
        number,
        { start: first.start, end: first.end, image: this.text.slice(first.start, first.end) },
        'unknown',
        null,
      );
    }
    const rest = first.kind === 'word' ? line.items.slice(1) : line.items;
    const header = findBlock(head.image);
    if (header) return this.placeHeader(header, head, rest, line, number);
    const row = findRow(head.image);
    if (row && this.openFor(row.in)) return this.placeStatement(row, head, rest, line, number);
    if (isSign(rest[0], '@') || (findLandmark(head.image) && this.openFor(['film', 'photo', 'read'])))
      return this.placePlacing(head, rest, line, number);
    if (row && this.here() !== 'tape') return this.misplaced(row, head, line, number);
    if (this.here() === 'limits')
      return this.placeLine('limit', limitForms, 'sole-depth.tip >= 12 mm', head, rest, line, number);
    if (this.here() === 'tape')
      return this.placeLine('taped', [tapeForm], 'toe-length 92 mm', head, rest, line, number);
    this.unknown(head, line, number);
  }

  private placeHeader(row: BlockRow, head: Leaf, rest: readonly Item[], line: Line, number: number): void {
    if (row.level === 0 ? number !== 0 : !this.openFor(row.in)) return this.misplaced(row, head, line, number);
    const statement = this.statement('header', row, row.takes, row.example, head, rest, number);
    this.open.push({ row, header: statement, entries: [], start: line.start });
  }

  private placeStatement(row: Row, head: Leaf, rest: readonly Item[], _line: Line, number: number): void {
    this.add(this.statement('statement', row, row.takes, row.example, head, rest, number));
  }

  private placePlacing(head: Leaf, rest: readonly Item[], line: Line, number: number): void {
    if (!this.openFor(['film', 'photo', 'read'])) {
      this.report({
        code: 'notation/misplaced-word',
        at: head,
        message: `The landmark «${head.image}» belongs in a film. Begin one with: ${findBlock('film')?.example}`,
        fixes: [],
      });
      return this.keep(line, number, head, 'unknown', null);
    }
    const view = this.view();
    const landmark = findLandmark(head.image);
    if (!landmark) this.unknownLandmark(head, view);
    else if (view && landmark.view !== view)
      this.report({
        code: 'notation/unknown-landmark',
        at: head,
        message: `«${head.image}» is a landmark of the ${landmark.view} view; this picture is ${view}.`,
        fixes: [],
      });
    const statement = this.statement('placing', null, [placingForm], `${head.image} @ 1382, 1201`, head, rest, number);
    const known = landmark !== undefined && (!view || landmark.view === view);
    this.add(known ? statement : { ...statement, whole: false });
  }

  private placeLine(
    kind: StatementKind,
    forms: readonly Form[],
    example: string,
    head: Leaf,
    rest: readonly Item[],
    _line: Line,
    number: number,
  ): void {
    this.add(this.statement(kind, null, forms, example, head, rest, number));
  }

  private placeProse(prose: Leaf, number: number): void {
    while (this.open.length > 1 && !this.open.at(-1)?.row?.prose) {
      if (this.open.length === 2) break;
      this.closeTo(this.open.length - 1);
    }
    if (!this.open.at(-1)?.row?.prose) {
      this.report({
        code: 'notation/misplaced-word',
        at: prose,
        message:
          'A line of prose belongs in a case, a visit, a film, a plan or a trim. For a remark begin the line with #.',
        fixes: [{ title: 'Make it a remark', edits: [{ start: prose.start, end: prose.start + 1, text: '#' }] }],
      });
    }
    this.end = prose.end;
    const entry: Prose = { kind: 'prose', line: number, ...prose };
    this.add(entry);
  }

  private unknown(head: Leaf, line: Line, number: number): void {
    const known = this.open.flatMap((group) => rowsIn(group.row?.word ?? 'file').map((row) => row.word));
    const view = this.view();
    const near = nearest(head.image, [...known, ...(view ? landmarksOf(view).map((landmark) => landmark.word) : [])]);
    const example = near ? (findRow(near)?.example ?? `${near} @ 1382, 1201`) : undefined;
    this.report({
      code: 'notation/unknown-word',
      at: head,
      message: near
        ? `The notation has no word «${head.image}». Did you mean «${near}»? For example: ${example}`
        : `The notation has no word «${head.image}». Begin a line of prose with | and a remark with #.`,
      fixes: near
        ? [renameTo(near, head)]
        : [{ title: 'Make it a line of prose', edits: [{ start: head.start, end: head.start, text: '| ' }] }],
    });
    this.keep(line, number, head, 'unknown', null);
  }

  private unknownLandmark(head: Leaf, view: View | null): void {
    const near = nearest(
      head.image,
      (view ? landmarksOf(view) : []).map((landmark) => landmark.word),
    );
    this.report({
      code: 'notation/unknown-landmark',
      at: head,
      message: `There is no landmark «${head.image}»${view ? ` in the ${view} view` : ''}.${near ? ` Did you mean «${near}»?` : ''}`,
      fixes: near ? [renameTo(near, head)] : [],
    });
  }

  private misplaced(row: Row, head: Leaf, line: Line, number: number): void {
    const homes = row.in.filter((place) => place !== 'file');
    const where = row.in.includes('file')
      ? `stands at the start of a line of its own, outside everything else`
      : `belongs in a ${homes.join(' or a ')}`;
    const home = homes[0] ? findBlock(homes[0]) : undefined;
    const outer = home && !this.openFor([home.word]) ? ` Begin one first, for example: ${home.example}` : '';
    this.report({ code: 'notation/misplaced-word', at: head, message: `«${head.image}» ${where}.${outer}`, fixes: [] });
    this.keep(line, number, head, 'unknown', row);
  }

  private keep(_line: Line, number: number, head: Leaf, kind: StatementKind, row: Row | null): void {
    this.add({
      kind,
      word: head.image,
      head,
      row,
      args: new Map(),
      whole: false,
      line: number,
      start: head.start,
      end: this.end,
    });
  }

  private statement(
    kind: StatementKind,
    row: Row | null,
    forms: readonly Form[],
    example: string,
    head: Leaf,
    rest: readonly Item[],
    number: number,
  ): Statement {
    const { args, problem } = matchForms(forms, rest, { head, example });
    if (problem) this.report(problem);
    return {
      kind,
      word: head.image,
      head,
      row,
      args,
      whole: !problem,
      line: number,
      start: head.start,
      end: rest.at(-1)?.end ?? head.end,
    };
  }

  private report(problem: Problem): void {
    this.problems.push({ ...problem, at: { start: problem.at.start, end: problem.at.end } });
  }

  private here(): Place {
    return this.open.at(-1)?.row?.word ?? 'file';
  }

  private view(): View | null {
    for (const group of [...this.open].reverse()) {
      const view = group.header?.args.get('view')?.[0];
      if (view?.kind === 'word') return view.image as View;
    }
    return null;
  }

  /** Closes the open groups down to the innermost one that is among `places`; false, and nothing closed, where none is. */
  private openFor(places: readonly Place[]): boolean {
    for (let depth = this.open.length - 1; depth >= 0; depth--) {
      if (!places.includes(this.open[depth]?.row?.word ?? 'file')) continue;
      this.closeTo(depth + 1);
      return true;
    }
    return false;
  }

  private closeTo(depth: number): void {
    while (this.open.length > depth) {
      const group = this.open.pop();
      if (!group?.row || !group.header) continue;
      const end = Math.max(group.header.end, group.entries.at(-1)?.end ?? 0);
      const closed: Group = {
        kind: 'group',
        row: group.row,
        header: group.header,
        entries: group.entries,
        start: group.header.start,
        end,
      };
      this.open.at(-1)?.entries.push(closed);
    }
  }

  private add(entry: Entry): void {
    this.open.at(-1)?.entries.push(entry);
  }
}

/** A line's first word, also where digits stick to it. */
function headOf(item: Item): Leaf | null {
  return item.kind === 'word' ? { start: item.start, end: item.end, image: item.image } : null;
}

function shown(item: Item): string {
  return `«${codeImage([item]) || (item.kind === 'point' ? `${item.x.image}, ${item.y.image}` : 'numbers')}»`;
}

function isSign(item: Item | undefined, image: string): boolean {
  return item?.kind === 'sign' && item.image === image;
}

function renameTo(word: string, head: Leaf): Fix {
  return { title: `Write «${word}»`, edits: [{ start: head.start, end: head.end, text: word }] };
}
