import { sayChoice } from '../language/choice-words.ts';
import { wordList } from './word-list.ts';
import { t } from '../language/words.ts';
import { codeImage } from './check-items.ts';
import { matchForms } from './match.ts';
import { noArguments } from './matched-arguments.ts';
import { quoted } from './mismatch.ts';
import { nearestMeaning } from './meanings.ts';
import { blockMeant, innerBlocks, namesFoot } from './near-block.ts';
import { nearest } from './nearest.ts';
import { findLandmark, landmarksOf, type View } from './landmarks.ts';
import { bare, holds, opened, wordOf, type OpenGroup } from './open-group.ts';
import { parseLines } from './lines.ts';
import type { NearPart } from './near-part.ts';
import type { Fix, Problem } from './problems.ts';
import type { Form } from './signature.ts';
import { partAt } from './split.ts';
import type { BlockContents, Entry, Group, Item, Leaf, Line, Prose, Statement, StatementKind } from './tree.ts';
import {
  denials,
  findBlock,
  findRow,
  formsIn,
  isBlockRow,
  limitForms,
  placingForm,
  rowsIn,
  tapeForm,
  type BlockRow,
  type Container,
  type WordRow,
} from './vocabulary.ts';
import { dayIn } from './written-day.ts';

const pictures: readonly Container[] = ['film', 'photo', 'read'];
const placingForms = [placingForm];
const tapeForms = [tapeForm];
const inTape: readonly Container[] = ['tape'];

export function readBlock(text: string): BlockContents {
  return new BlockReader(text).read();
}

/** No picture and no tape has as many lines: farther away nothing is looked for, so that a text costs by its length alone. */
const linesOfOne = 200;

/** Puts the lines of one level-0 block into the group that each belongs to. */
class BlockReader {
  private readonly text: string;
  private readonly lines: readonly Line[];
  private readonly problems: Problem[] = [];
  private readonly open: OpenGroup[] = [];

  constructor(text: string) {
    this.text = text;
    this.lines = parseLines(text);
  }

  read(): BlockContents {
    const { lines } = this;
    const outermost = opened(null, null, null, null, []);
    this.open.push(outermost);
    for (let number = 0; number < lines.length; number++) this.place(lines[number] as Line, number);
    this.closeTo(outermost);
    const first = outermost.entries[0];
    const whole = first?.kind === 'group' && first.row.level === 0 ? first : null;
    return {
      row: whole?.row ?? null,
      header: whole?.header ?? null,
      lines,
      entries: whole?.entries ?? outermost.entries,
      problems: this.problems,
    };
  }

  private place(line: Line, number: number): void {
    if (line.prose) return this.placeProse(line.prose, number);
    const head = line.items[0];
    if (!head) return;
    const near = number === 0 ? partAt(this.text, line.start)?.near : null;
    if (near) return this.placeNearly(near, line, number);
    if (head.kind !== 'word') return this.wordless(head, line, number);
    const row = findRow(head.image);
    if (row && isBlockRow(row)) return this.placeHeader(row, head, line, number);
    const owner = row && this.ownerOf(row.takesIn ? this.meantBy(row, line) : row.in);
    if (row && owner) return this.placeStatement(row, owner, head, line, number);
    if (isSign(line.items[1], '@') || (findLandmark(head.image) && this.ownerOf(pictures)))
      return this.placePlacing(head, line, number);
    if (row && this.here() !== 'tape') return this.misplaced(row, head, line, number);
    const header = row ? undefined : this.misspelt(head, line);
    if (header) return this.placeHeader(header, head, line, number);
    if (!row && this.placeMeant(head, line, number)) return;
    // Among the lines of a visit it takes a relation to be one of the limits.
    if (this.here() === 'limits' && (this.open.length === 2 || isRelation(line.items[1])))
      return this.add(this.statement('limit', null, limitForms, 'sole-depth.tip >= 12 mm', head, line, number));
    if (this.isTaped(head, line))
      return this.add(this.statement('taped', null, tapeForms, 'toe-length 92 mm', head, line, number));
    this.unknown(head, line, number);
  }

  /** A whole line closes the blocks within its own; a broken one leaves all as it was. */
  private placeStatement(row: WordRow, owner: OpenGroup, head: Leaf, line: Line, number: number): void {
    const forms = formsIn(row, wordOf(owner));
    const statement = this.statement('statement', row, forms, row.example, head, line, number);
    if (!statement.whole) return this.addFor(owner, statement);
    for (const group of this.open) if (group.parent === owner) group.closedBy = statement;
    this.closeTo(owner);
    this.add(statement);
  }

  private wordless(first: Item, line: Line, number: number): void {
    this.report({
      code: 'notation/unknown-word',
      at: first,
      message: t(
        'A line begins with a word such as {0}; this one begins with {1}.',
        rowsIn(this.here())
          .slice(0, 3)
          .map((row) => row.word)
          .join(', ') || 'visit',
        shown(first),
      ),
      fixes: [],
    });
    const { start, end } = first;
    this.keep({ start, end, image: this.text.slice(start, end) }, null, line, number);
  }

  private placeHeader(row: BlockRow, head: Leaf, line: Line, number: number): void {
    if (row.level === 0 && number !== 0) return this.headerWithin(row, head, line, number);
    const owner = this.ownerOf(row.in) ?? null;
    if (!owner) return this.misplaced(row, head, line, number);
    const header = this.withDay(this.statement('header', row, row.takes, row.example, head, line, number), line);
    if (!header.whole) owner.lost = row;
    // A header that does not even say of what it is one takes no line away from the block that it stands in.
    const inside = owner !== this.open.at(-1) || row.word === 'read';
    if (!header.whole && inside && isEmpty(header, line) && !this.saysAgain(number))
      return this.addFor(owner, bare(row, header));
    this.closeTo(owner);
    this.begin(row, head.image === row.word ? header : { ...header, misspelt: true });
  }

  /**
   * Of a visit whose date is written in another form the day, where it can only be one: what stands below is of that day. The header
   * stays broken, and is told.
   */
  private withDay(header: Statement, { start, end }: Line): Statement {
    if (header.word !== 'visit' || header.whole || header.args.has('date')) return header;
    const day = dayIn(this.text.slice(start, end));
    if (day === null) return header;
    const { head, row } = header;
    const date: Item = { kind: 'date', image: day, start: head.end, end: header.end };
    const items: Item[] = [{ kind: 'word', ...head }, date];
    return { ...header, args: matchForms(row?.takes ?? [], items, { head, example: '' }).args };
  }

  /** The first line, which is nearly the header of a part of the file: see `nearPartAt`. */
  private placeNearly({ word, head, date }: NearPart, line: Line, number: number): void {
    const row = findBlock(word) as BlockRow;
    const behind = date?.end ?? head.end;
    const items: Item[] = [
      { kind: 'word', ...head },
      ...(date ? [{ kind: 'date', ...date } as const] : []),
      ...line.items.filter(({ start }) => start >= behind),
    ];
    const usual = date ? `${word} ${date.image}` : word;
    const at = { start: head.start, end: behind };
    this.report({
      code: 'notation/unknown-word',
      at,
      message: t(
        '«{0}» is read as «{1}», and the lines below as its lines. Write it so. For example: {2}',
        quoted(this.text.slice(at.start, at.end)),
        usual,
        row.example,
      ),
      fixes: [{ title: t('Write «{0}»', usual), edits: [{ ...at, text: spaced(usual, this.text, behind) }] }],
    });
    // In a sentence it is called by the word that it is read as.
    const as = { ...head, image: word };
    const header = this.statement('header', row, row.takes, row.example, as, { ...line, items }, number);
    this.begin(row, { ...header, misspelt: true });
  }

  private begin(row: BlockRow, header: Statement): void {
    const owner = this.open.at(-1) ?? null;
    const view = header.args.item('view');
    const group = bare(row, header);
    const inside = opened(row, group, view?.kind === 'word' ? (view.image as View) : this.view(), owner, group.entries);
    // Limits among the lines of a visit are told, and end none of its blocks.
    if (owner && header.whole && row.level > 0) {
      owner.last = inside;
      owner.lost = null;
    }
    this.add(group);
    this.open.push(inside);
  }

  /** A word that begins a part of the file, on a line of a visit, a case or the limits: it begins nothing there. */
  private headerWithin(row: BlockRow, head: Leaf, line: Line, number: number): void {
    const { problem } = matchForms(row.takes, line.items, { head, example: row.example });
    const around = this.open[1] ?? this.open[0];
    const where = wordOf(around as OpenGroup);
    if (row.word === where && problem) {
      this.report(problem);
      return this.keep(head, row, line, number);
    }
    const near = nearestMeaning(
      head.image,
      rowsIn(where)
        .map(({ word }) => word)
        .filter((word) => word !== head.image),
    );
    const meant = near === undefined ? undefined : findRow(near);
    const fits =
      near !== undefined && meant && !matchForms(formsIn(meant, where), line.items, { head, example: '' }).problem;
    this.report({
      code: 'notation/misplaced-word',
      at: head,
      message: fits
        ? t(
            '«{0}» begins a part of the file of its own, and the lines below it belong to this {1}. Did you mean «{2}»?',
            head.image,
            where,
            near,
          )
        : t(
            '«{0}» begins a part of the file of its own, and the lines below it belong to this {1}. Move it above the {1} or below its last line.',
            head.image,
            where,
          ),
      fixes: fits ? [renameTo(near, head)] : [],
    });
    if (row.word !== 'limits' || problem) return this.keep(head, row, line, number);
    this.closeTo(around as OpenGroup);
    this.begin(row, this.statement('header', row, row.takes, row.example, head, line, number));
  }

  /** The block that a line begins whose word is nearly its own, where all the rest of it is as that block wants it. */
  private misspelt(head: Leaf, line: Line): BlockRow | undefined {
    const near = nearestMeaning(
      head.image,
      [...innerBlocks].filter(([, row]) => this.ownerOf(row.in)).map(([word]) => word),
    );
    const row = near === undefined ? undefined : innerBlocks.get(near);
    if (!row || matchForms(row.takes, line.items, { head, example: row.example }).problem) return undefined;
    this.report({
      code: 'notation/unknown-word',
      at: head,
      message: t(
        'The notation has no word «{0}». It is read as «{1}», and the lines below as that {1}’s. For example: {2}',
        quoted(head.image),
        row.word,
        row.example,
      ),
      fixes: [renameTo(row.word, head)],
    });
    return row;
  }

  /**
   * A line that is meant to begin a block, and more is wrong about it than one word. It begins the block, whose lines count for nothing
   * until it is mended: to leave them to the block above would make of them another foot’s.
   */
  private placeMeant(head: Leaf, line: Line, number: number): boolean {
    const near = this.nearestWord(head);
    const nearly = near === undefined ? undefined : innerBlocks.get(near);
    const other = blockMeant(line, this.open.at(-1)?.row ?? null);
    const names =
      nearly !== undefined &&
      (nearly.word === 'read' ? line.items.length > 1 : namesFoot(line) || this.saysAgain(number));
    const meant = nearly && names && !other?.usual ? { row: nearly, usual: nearly.word } : other;
    const owner = meant && this.ownerOf(meant.row.in);
    if (!meant || !owner) return false;
    const { row, usual } = meant;
    this.report({
      code: 'notation/unknown-word',
      at: head,
      message: t(
        '«{0}» is taken for the beginning of a {1}, and the lines below as that {1}’s. They count for nothing until it is mended. For example: {2}',
        quoted(head.image),
        row.word,
        row.example,
      ),
      fixes: usual === null ? [] : [renameTo(usual, head)],
    });
    owner.lost = row;
    this.closeTo(owner);
    this.begin(row, {
      kind: 'header',
      word: row.word,
      head,
      row,
      args: noArguments,
      whole: false,
      line: number,
      start: head.start,
      end: endOf(line),
    });
    return true;
  }

  /** Whether the next lines below one, up to the next block, say again what the open block says already: then they are another one’s. */
  private saysAgain(number: number): boolean {
    const said = new Set(
      (this.open.at(-1)?.entries ?? [])
        .slice(-linesOfOne)
        .flatMap((entry) =>
          entry.kind === 'placing' || entry.kind === 'taped' || (entry.kind === 'statement' && !entry.row?.repeats)
            ? [entry.word]
            : [],
        ),
    );
    for (const { items } of this.lines.slice(number + 1, number + 1 + linesOfOne)) {
      const [head] = items;
      if (head?.kind !== 'word') continue;
      const row = findRow(head.image);
      if (row && isBlockRow(row)) return false;
      if (said.has(head.image)) return true;
    }
    return false;
  }

  private placePlacing(head: Leaf, line: Line, number: number): void {
    const owner = this.ownerOf(pictures) ?? this.goesOn(pictures);
    if (!owner && this.isLost(pictures)) return this.keep(head, null, line, number);
    if (!owner) {
      this.report({
        code: 'notation/misplaced-word',
        at: head,
        message: t(
          'The landmark «{0}» belongs in a film. Begin one with: {1}',
          quoted(head.image),
          findBlock('film')?.example,
        ),
        fixes: [],
      });
      return this.keep(head, null, line, number);
    }
    const { view } = owner;
    const landmark = findLandmark(head.image);
    if (!landmark) this.unknownLandmark(head, view);
    else if (view && landmark.view !== view)
      this.report({
        code: 'notation/unknown-landmark',
        at: head,
        message: t(
          '«{0}» is a landmark of the {1} view; this picture is {2}.',
          quoted(head.image),
          sayChoice(landmark.view),
          sayChoice(view),
        ),
        fixes: [],
      });
    const known = landmark !== undefined && (!view || landmark.view === view);
    // By the vocabulary's own string: the record keeps no copy for each placing, and two of one name are told alike at once.
    const word = landmark?.word ?? head.image;
    this.addFor(
      owner,
      this.statement('placing', null, placingForms, `${word} @ 1382, 1201`, head, line, number, known, word),
    );
  }

  /** Prose closes no block: it goes to the innermost that keeps any. */
  private placeProse(prose: Leaf, number: number): void {
    const owner = this.open.findLast((group) => group.row?.prose);
    const entry: Prose = { kind: 'prose', line: number, ...prose };
    if (!owner) {
      this.report({
        code: 'notation/misplaced-word',
        at: prose,
        message: t(
          'A line of prose belongs in a case, a visit, a film, a plan or a trim. For a remark begin the line with #.',
        ),
        fixes: [{ title: t('Make it a remark'), edits: [{ start: prose.start, end: prose.start + 1, text: '#' }] }],
      });
      return this.add(entry);
    }
    this.addFor(owner, entry);
  }

  private unknown(head: Leaf, line: Line, number: number): void {
    if (denials.has(head.image.toLowerCase())) return this.denied(head, line, number);
    const near = this.nearestWord(head);
    const example = near ? (findRow(near)?.example ?? `${near} @ 1382, 1201`) : undefined;
    this.report({
      code: 'notation/unknown-word',
      at: head,
      message: near
        ? t('The notation has no word «{0}». Did you mean «{1}»? For example: {2}', quoted(head.image), near, example)
        : t('The notation has no word «{0}». Begin a line of prose with | and a remark with #.', quoted(head.image)),
      fixes: near
        ? [renameTo(near === 'vet' && /seen$/i.test(head.image) ? 'vet seen' : near, head)]
        : [{ title: t('Make it a line of prose'), edits: [{ start: head.start, end: head.start, text: '| ' }] }],
    });
    this.keep(head, null, line, number);
  }

  /** `no signs`, `no fever` */
  private denied(head: Leaf, line: Line, number: number): void {
    this.report({
      code: 'notation/unknown-word',
      at: head,
      message: t(
        'Where there is none of something, no line is written of it. Remove this line, or make it a line of prose with | before it.',
      ),
      fixes: [
        { title: t('Remove this line'), edits: [{ start: head.start, end: endOf(line), text: '', wholeLine: true }] },
        { title: t('Make it a line of prose'), edits: [{ start: head.start, end: head.start, text: '| ' }] },
      ],
    });
    this.keep(head, null, line, number);
  }

  private nearestWord(head: Leaf): string | undefined {
    const known = this.open.flatMap((group) => rowsIn(wordOf(group)).map((row) => row.word));
    const view = this.view();
    return nearestMeaning(head.image, [...known, ...(view ? landmarksOf(view).map((landmark) => landmark.word) : [])]);
  }

  private unknownLandmark(head: Leaf, view: View | null): void {
    const near = nearest(
      head.image,
      (view ? landmarksOf(view) : []).map((landmark) => landmark.word),
    );
    this.report({
      code: 'notation/unknown-landmark',
      at: head,
      message: t(
        'There is no landmark «{0}»{1}.{2}',
        quoted(head.image),
        view ? t(' in the {0} view', sayChoice(view)) : '',
        near ? t(' Did you mean «{0}»?', near) : '',
      ),
      fixes: near ? [renameTo(near, head)] : [],
    });
  }

  private misplaced(row: WordRow, head: Leaf, line: Line, number: number): void {
    const owner = isBlockRow(row) ? null : this.goesOn(row.in);
    if (owner) return this.placeStatement(row, owner, head, line, number);
    if (this.isLost(row.in)) return this.keep(head, row, line, number);
    const homes = row.in.filter((place) => place !== 'file');
    const where = row.in.includes('file')
      ? t('stands at the start of a line of its own, outside everything else')
      : t('belongs in a {0}', wordList(homes, 'or'));
    const home = homes[0] ? findBlock(homes[0]) : undefined;
    const outer = home && !this.ownerOf([home.word]) ? t(' Begin one first, for example: {0}', home.example) : '';
    this.report({
      code: 'notation/misplaced-word',
      at: head,
      message: `«${quoted(head.image)}» ${where}.${outer}`,
      fixes: [],
    });
    this.keep(head, row, line, number);
  }

  private keep(head: Leaf, row: WordRow | null, line: Line, number: number): void {
    this.add({
      kind: 'unknown',
      word: head.image,
      head,
      row,
      args: noArguments,
      whole: false,
      line: number,
      start: head.start,
      end: endOf(line),
    });
  }

  private statement(
    kind: StatementKind,
    row: WordRow | null,
    forms: readonly Form[],
    example: string,
    head: Leaf,
    line: Line,
    number: number,
    known = true,
    word = row?.word ?? head.image,
  ): Statement {
    const { args, problem } = matchForms(forms, line.items, { head, example });
    if (problem) this.report(problem);
    return {
      kind,
      word,
      head,
      row,
      args,
      whole: known && !problem,
      line: number,
      start: head.start,
      end: endOf(line),
    };
  }

  private report(problem: Problem): void {
    this.problems.push({ ...problem, at: { start: problem.at.start, end: problem.at.end } });
  }

  private here(): Container {
    return this.open.at(-1)?.row?.word ?? 'file';
  }

  /** The open block whose form of the word the line has; every one that takes the word where none fits. */
  private meantBy(row: WordRow, { items }: Line): readonly Container[] {
    const [head] = items;
    if (head?.kind !== 'word') return row.in;
    const fits = (place: Container): boolean =>
      row.in.includes(place) && !matchForms(formsIn(row, place), items, { head, example: row.example }).problem;
    const meant = this.open.map((group) => group.row?.word ?? 'file').findLast(fits);
    return meant === undefined ? row.in : [meant];
  }

  private view(): View | null {
    return this.open.at(-1)?.view ?? null;
  }

  /** The innermost open block among `places`. */
  private ownerOf(places: readonly Container[]): OpenGroup | undefined {
    for (let depth = this.open.length - 1; depth >= 0; depth--)
      if (places.includes(wordOf(this.open[depth] as OpenGroup))) return this.open[depth];
    return undefined;
  }

  /**
   * The block among `places` that the lines above had closed, opened anew. What had closed it is told, and stands in the tree as a guest
   * among the block's lines.
   */
  private goesOn(places: readonly Container[]): OpenGroup | undefined {
    const owner = this.open.findLast(
      ({ last }) => last && (holds(last, places) || (last.last && holds(last.last, places))),
    );
    if (!owner) return undefined;
    this.closeTo(owner);
    for (let group = owner.last; group; group = group.last) {
      if (group !== owner.last && !holds(group, places)) break;
      this.reopen(group);
    }
    return this.ownerOf(places);
  }

  private reopen(group: OpenGroup): void {
    const owner = this.open.at(-1) as OpenGroup;
    const since = owner.entries.splice(owner.entries.lastIndexOf(group.group as Group) + 1);
    for (const entry of since) group.entries.push({ ...entry, guestOf: entry.guestOf ?? wordOf(owner) });
    this.open.push(group);
    const { closedBy } = group;
    group.closedBy = null;
    if (!closedBy) return;
    this.report({
      code: 'notation/misplaced-word',
      at: closedBy.head,
      message: t(
        '«{0}» belongs to the {1}, and stands among the lines of the {2}. Move it above the {2} or below its last line.',
        closedBy.word,
        wordOf(owner),
        wordOf(group),
      ),
      fixes: [],
    });
  }

  /** Whether the header of the block that the line belongs to was broken: that is told there, and once. */
  private isLost(places: readonly Container[]): boolean {
    return this.open.some(({ lost }) => lost && places.includes(lost.word));
  }

  /** A line of the tape that is open or, where it can be nothing else, of the one above. */
  private isTaped(head: Leaf, line: Line): boolean {
    const open = this.here() === 'tape';
    if (!open && !this.open.some(({ last }) => last)) return false;
    const fits = !matchForms(tapeForms, line.items, { head, example: '' }).problem;
    if (open && fits) return true;
    if (this.nearestWord(head) !== undefined) return false;
    return open || (fits && this.goesOn(inTape) !== undefined);
  }

  private closeTo(owner: OpenGroup): void {
    while (this.open.at(-1) !== owner) {
      const { group } = this.open.pop() as OpenGroup;
      if (group) group.end = Math.max(group.header.end, group.entries.at(-1)?.end ?? 0);
    }
  }

  /** An entry of one of the open blocks that closes none: within another it is a guest. */
  private addFor(owner: OpenGroup, entry: Entry): void {
    this.add(owner === this.open.at(-1) ? entry : { ...entry, guestOf: wordOf(owner) });
  }

  private add(entry: Entry): void {
    this.open.at(-1)?.entries.push(entry);
  }
}

/** Whether a header lacks what its block is named by, the foot or the reader: there is nothing that may be a slip for it. */
function isEmpty({ args, row }: Statement, line: Line): boolean {
  const [first] = row?.takes[0] ?? [];
  if (!first || !line.items[1]) return true;
  return !args.has(first.name) && first.take === 'foot' && !namesFoot(line);
}

/** Where the last item of a line that has one ends. */
function endOf(line: Line): number {
  return line.items[line.items.length - 1]?.end ?? line.end;
}

function shown(item: Item): string {
  return `«${quoted(codeImage([item]) || (item.kind === 'point' ? `${item.x.image}, ${item.y.image}` : 'numbers'))}»`;
}

function isSign(item: Item | undefined, image: string): boolean {
  return item?.kind === 'sign' && item.image === image;
}

function isRelation(item: Item | undefined): boolean {
  return item?.kind === 'sign' && /^[<>≤≥]/.test(item.image);
}

/** With a blank behind it where something follows at once. */
function spaced(word: string, text: string, end: number): string {
  return /[^\s#]/.test(text.charAt(end)) ? `${word} ` : word;
}

function renameTo(word: string, head: Leaf): Fix {
  return { title: t('Write «{0}»', word), edits: [{ start: head.start, end: head.end, text: word }] };
}
