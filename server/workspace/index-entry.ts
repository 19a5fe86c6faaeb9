import { caseFacts, type CaseFacts } from '../../shared/findings/across/case-facts.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { isLesson } from '../../shared/findings/withheld.ts';
import { lineSpanIn, type LineSpan } from '../../shared/notation/line-span.ts';
import type { PlacedBlock } from '../../shared/notation/tree.ts';
import type { Film, ListedPicture } from '../../shared/record/schema.ts';
import { dueOn, type CaseDue } from '../../shared/views/due.ts';
import { everyStatement } from '../text/every-statement.ts';
import { measureIn, readerIn } from '../features/mentions.ts';

export interface IndexedFilm extends Pick<Film, 'kind' | 'foot'> {
  readonly view: (Film | ListedPicture)['view'];
  readonly path: string;
  readonly at: LineSpan;
}

export interface IndexedVisit {
  readonly date: string | null;
  readonly title: string | null;
  readonly at: LineSpan;
  readonly films: readonly IndexedFilm[];
}

/** Where one name stands in a file. */
export interface IndexedName {
  readonly kind: 'reader' | 'measure';
  readonly name: string;
  readonly places: readonly LineSpan[];
}

/** What is kept of a case file: enough to find things in it, and far less than its tree. */
export interface IndexEntry {
  readonly facts: CaseFacts;
  /** So that what rests on its places is kept back. */
  readonly isLesson: boolean;
  /** The first word of the case. */
  readonly caseAt: LineSpan | null;
  readonly visits: readonly IndexedVisit[];
  readonly names: readonly IndexedName[];
  /** What waits on the day, as `dayNumber` counts, on which this was made; null in place of it where the file was not read. */
  readonly due: CaseDue & { readonly today: number | null };
}

export const emptyEntry: IndexEntry = {
  facts: { name: null, code: null, pictures: [] },
  isLesson: false,
  caseAt: null,
  visits: [],
  names: [],
  due: { today: null, name: null, alarms: [], items: [] },
};

/** `today`: as `dayNumber` counts. */
export function indexEntry({ tree, study }: Inspection, today: number): IndexEntry {
  const blocks = new Map(tree.blocks.map((placed) => [placed.start, placed]));
  const { animal, visits } = study.record;
  return {
    facts: caseFacts(tree, study.record),
    isLesson: isLesson(study),
    caseAt: animal && placeAt(blocks, animal.start, 0, animal.is.head),
    visits: visits.flatMap(({ start, is }) => {
      const at = placeAt(blocks, start, 0, is.date === null ? is.head : is.dateAt);
      return at
        ? [{ date: is.date, title: is.title, at, films: filmsIn([...is.films, ...is.pictures], blocks, start) }]
        : [];
    }),
    names: namesIn(tree),
    due: { today, ...dueOn(today, { tree, study }) },
  };
}

function filmsIn(
  films: readonly (Film | ListedPicture)[],
  blocks: ReadonlyMap<number, PlacedBlock>,
  start: number,
): IndexedFilm[] {
  return films.flatMap(({ kind, foot, view, path, head, line }) => {
    const at = placeAt(blocks, start, line, head);
    return at ? [{ kind, foot, view, path: path.text, at }] : [];
  });
}

function placeAt(
  blocks: ReadonlyMap<number, PlacedBlock>,
  start: number,
  line: number,
  span: { start: number; end: number },
): LineSpan | null {
  const placed = blocks.get(start);
  return placed ? lineSpanIn(placed, line, span) : null;
}

function namesIn(tree: Inspection['tree']): IndexedName[] {
  const found = new Map<string, { kind: IndexedName['kind']; name: string; places: LineSpan[] }>();
  const add = (kind: IndexedName['kind'], name: string, at: LineSpan): void => {
    const key = `${kind} ${name}`;
    const known = found.get(key);
    if (known) known.places.push(at);
    else found.set(key, { kind, name, places: [at] });
  };
  for (const one of everyStatement(tree)) {
    const { placed, statement } = one;
    const reader = readerIn(one);
    if (reader) add('reader', reader.value, lineSpanIn(placed, statement.line, reader));
    const named = reader ? null : measureIn(one);
    if (named) add('measure', named.measure.name, lineSpanIn(placed, statement.line, named));
  }
  return [...found.values()];
}

/** The same with strings of its own: a piece cut out of a long text keeps the whole text in memory. */
export function detached<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T;
}
