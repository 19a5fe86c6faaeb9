import type { Inspection } from '../../shared/findings/inspect.ts';
import type { Argument, Form } from '../../shared/notation/signature.ts';
import {
  isGroup,
  type Block,
  type Entry,
  type Group,
  type Item,
  type PlacedBlock,
  type Statement,
} from '../../shared/notation/tree.ts';
import { isFoot, limitForms, placingForm, tapeForm } from '../../shared/notation/vocabulary.ts';
import type { FootName } from '../../shared/notation/choices.ts';
import type { Study, StudiedFilm, StudiedReading } from '../../shared/trim/study.ts';

/** What stands at one place of a file. Offsets of its parts count from the start of its block. */
export interface Spot {
  readonly placed: PlacedBlock;
  readonly offset: number;
  /** Outermost first; the block itself is not among them. */
  readonly groups: readonly Group[];
  readonly statement: Statement;
  readonly item: Item;
  readonly isHead: boolean;
}

/** Null in blanks, remarks and prose. */
export function spotAt({ tree }: Inspection, offset: number): Spot | null {
  const placed = tree.blocks.findLast((block) => block.start <= offset);
  if (!placed) return null;
  const { block } = placed;
  const local = offset - placed.start;
  const number = block.lines.findLastIndex((line) => line.start <= local);
  const line = block.lines[number];
  const item =
    line?.items.find((one) => one.start <= local && local < one.end) ?? line?.items.find((one) => one.end === local);
  const found = item && statementOn(block, number);
  if (!found) return null;
  return { placed, offset: local, ...found, item, isHead: item === line?.items[0] };
}

/** The statement on a line of a block, which may be a header. */
export function statementOn(block: Block, line: number): Pick<Spot, 'groups' | 'statement'> | null {
  if (block.header?.line === line) return { groups: [], statement: block.header };
  return statementIn(block.entries, line, []);
}

function statementIn(
  entries: readonly Entry[],
  line: number,
  groups: readonly Group[],
): Pick<Spot, 'groups' | 'statement'> | null {
  const entry = entries.findLast((one) => lineOf(one) <= line);
  if (!entry || entry.kind === 'prose') return null;
  if (!isGroup(entry)) return entry.line === line ? { groups, statement: entry } : null;
  const inside = [...groups, entry];
  return entry.header.line === line
    ? { groups: inside, statement: entry.header }
    : statementIn(entry.entries, line, inside);
}

const lineOf = (entry: Entry): number => (isGroup(entry) ? entry.header.line : entry.line);

/** The forms that a statement's arguments may take; none for a word that means nothing. */
export function formsOf({ kind, row }: Statement): readonly Form[] {
  switch (kind) {
    case 'placing':
      return [placingForm];
    case 'limit':
      return limitForms;
    case 'taped':
      return [tapeForm];
    default:
      return row?.takes ?? [];
  }
}

/** What the item is to the statement's word. */
export function argumentOf(statement: Statement, item: Item): Argument | undefined {
  return argumentsOf(statement).get(item);
}

/** The same for every item at once: a line may hold a great many. */
export function argumentsOf(statement: Statement): ReadonlyMap<Item, Argument> {
  const byName = new Map<string, Argument>();
  // A mark and what it stands before may go by one name.
  const marks = new Map<string, Argument>();
  for (const argument of formsOf(statement).flat()) {
    const known = argument.take === 'mark' ? marks : byName;
    if (!known.has(argument.name)) known.set(argument.name, argument);
  }
  const byItem = new Map<Item, Argument>();
  for (const [name, items] of statement.args) {
    const [mark, named] = [marks.get(name), byName.get(name)];
    for (const item of items) {
      const isMark = mark?.take === 'mark' && 'image' in item && item.image === mark.text;
      const argument = isMark ? mark : (named ?? mark);
      if (argument) byItem.set(item, argument);
    }
  }
  return byItem;
}

/** The foot that the groups are about. */
export function footOf({ groups }: Pick<Spot, 'groups'>): FootName | null {
  for (const { header } of groups) {
    const item = header.args.get('foot')?.[0];
    if (item?.kind === 'word' && isFoot(item.image)) return item.image;
  }
  return null;
}

/** The film that the spot lies in. */
export function filmAt(study: Study, { placed, groups }: Spot): StudiedFilm | undefined {
  const picture = groups.find(({ row }) => row.word === 'film' || row.word === 'photo');
  return (
    picture && study.films.find(({ visit, film }) => visit.start === placed.start && film.at.start === picture.start)
  );
}

/** The reading that the spot lies in: that of its `read`, else the unnamed reader's. */
export function readingAt(film: StudiedFilm, { groups }: Spot): StudiedReading | undefined {
  const read = groups.find(({ row }) => row.word === 'read');
  return film.readings.find(({ reading }) => (read ? reading.at.start === read.header.start : reading.reader === null));
}
