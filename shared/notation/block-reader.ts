import { wordList } from './word-list.ts';
import { t } from '../language/words.ts';
import { codeImage } from './check-items.ts';
import { matchForms } from './match.ts';
import { noArguments } from './matched-arguments.ts';
import { quoted } from './mismatch.ts';
import { nearestMeaning } from './meanings.ts';
import { nearest } from './nearest.ts';
import { findLandmark, landmarksOf, type View } from './landmarks.ts';
import { parseLines } from './lines.ts';
import type { Fix, Problem } from './problems.ts';
import type { Form } from './signature.ts';
import type { BlockContents, Entry, Group, Item, Leaf, Line, Prose, Statement, StatementKind } from './tree.ts';
import {
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

interface OpenGroup {
  readonly row: BlockRow | null;
  readonly header: Statement | null;
  /** Of the innermost picture that is open. */
  readonly view: View | null;
  readonly entries: Entry[];
}

const pictures: readonly Container[] = ['film', 'photo', 'read'];
const placingForms = [placingForm];
const tapeForms = [tapeForm];

export function readBlock(text: string): BlockContents {
  return new BlockReader(text).read();
}

/** Puts the lines of one level-0 block into the group that each belongs to. */
class BlockReader {
  private readonly text: string;
  private readonly problems: Problem[] = [];
  private readonly open: OpenGroup[] = [];

  constructor(text: string) {
    this.text = text;
  }

  read(): BlockContents {
    const lines = parseLines(this.text);
    const outermost: OpenGroup = { row: null, header: null, view: null, entries: [] };
    this.open.push(outermost);
    for (let number = 0; number < lines.length; number++) this.place(lines[number] as Line, number);
    this.closeTo(1);
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
    if (head.kind !== 'word') return this.wordless(head, line, number);
    const row = findRow(head.image);
    if (row && isBlockRow(row)) return this.placeHeader(row, head, line, number);
    if (row && this.openFor(row.takesIn ? this.meantBy(row, line) : row.in))
      return this.add(this.statement('statement', row, formsIn(row, this.here()), row.example, head, line, number));
    if (isSign(line.items[1], '@') || (findLandmark(head.image) && this.openFor(pictures)))
      return this.placePlacing(head, line, number);
    if (row && this.here() !== 'tape') return this.misplaced(row, head, line, number);
    if (this.here() === 'limits')
      return this.add(this.statement('limit', null, limitForms, 'sole-depth.tip >= 12 mm', head, line, number));
    if (this.here() === 'tape')
      return this.add(this.statement('taped', null, tapeForms, 'toe-length 92 mm', head, line, number));
    this.unknown(head, line, number);
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
    if (row.level === 0 ? number !== 0 : !this.openFor(row.in)) return this.misplaced(row, head, line, number);
    const header = this.statement('header', row, row.takes, row.example, head, line, number);
    const view = header.args.item('view');
    this.open.push({ row, header, view: view?.kind === 'word' ? (view.image as View) : this.view(), entries: [] });
  }

  private placePlacing(head: Leaf, line: Line, number: number): void {
    if (!this.openFor(pictures)) {
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
    const view = this.view();
    const landmark = findLandmark(head.image);
    if (!landmark) this.unknownLandmark(head, view);
    else if (view && landmark.view !== view)
      this.report({
        code: 'notation/unknown-landmark',
        at: head,
        message: t(
          '«{0}» is a landmark of the {1} view; this picture is {2}.',
          quoted(head.image),
          landmark.view,
          view,
        ),
        fixes: [],
      });
    const known = landmark !== undefined && (!view || landmark.view === view);
    // By the vocabulary's own string: the record keeps no copy for each placing, and two of one name are told alike at once.
    const word = landmark?.word ?? head.image;
    this.add(this.statement('placing', null, placingForms, `${word} @ 1382, 1201`, head, line, number, known, word));
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
        message: t(
          'A line of prose belongs in a case, a visit, a film, a plan or a trim. For a remark begin the line with #.',
        ),
        fixes: [{ title: t('Make it a remark'), edits: [{ start: prose.start, end: prose.start + 1, text: '#' }] }],
      });
    }
    const entry: Prose = { kind: 'prose', line: number, ...prose };
    this.add(entry);
  }

  private unknown(head: Leaf, line: Line, number: number): void {
    const known = this.open.flatMap((group) => rowsIn(group.row?.word ?? 'file').map((row) => row.word));
    const view = this.view();
    const near = nearestMeaning(head.image, [
      ...known,
      ...(view ? landmarksOf(view).map((landmark) => landmark.word) : []),
    ]);
    const example = near ? (findRow(near)?.example ?? `${near} @ 1382, 1201`) : undefined;
    this.report({
      code: 'notation/unknown-word',
      at: head,
      message: near
        ? t('The notation has no word «{0}». Did you mean «{1}»? For example: {2}', quoted(head.image), near, example)
        : t('The notation has no word «{0}». Begin a line of prose with | and a remark with #.', quoted(head.image)),
      fixes: near
        ? [renameTo(near, head)]
        : [{ title: t('Make it a line of prose'), edits: [{ start: head.start, end: head.start, text: '| ' }] }],
    });
    this.keep(head, null, line, number);
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
        view ? t(' in the {0} view', view) : '',
        near ? t(' Did you mean «{0}»?', near) : '',
      ),
      fixes: near ? [renameTo(near, head)] : [],
    });
  }

  private misplaced(row: WordRow, head: Leaf, line: Line, number: number): void {
    const homes = row.in.filter((place) => place !== 'file');
    const where = row.in.includes('file')
      ? t('stands at the start of a line of its own, outside everything else')
      : t('belongs in a {0}', wordList(homes, 'or'));
    const home = homes[0] ? findBlock(homes[0]) : undefined;
    const outer = home && !this.openFor([home.word]) ? t(' Begin one first, for example: {0}', home.example) : '';
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

  /** Closes the open groups down to the innermost one that is among `places`; false, and nothing closed, where none is. */
  private openFor(places: readonly Container[]): boolean {
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

function renameTo(word: string, head: Leaf): Fix {
  return { title: t('Write «{0}»', word), edits: [{ start: head.start, end: head.end, text: word }] };
}
