import type { Inspection } from '../../shared/findings/inspect.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { codeImage } from '../../shared/notation/check-items.ts';
import type { Item, Span, Tree } from '../../shared/notation/tree.ts';
import { everyStatement, type PlacedStatement } from '../text/every-statement.ts';
import { footOf, spotAt, type Spot } from '../text/spot.ts';

/** One place where a thing is named; counted in the file. */
export interface Mention extends Span {
  /** Where the thing first stands, of those that have such a place. */
  readonly declares: boolean;
  /** Within the reading that was asked in. */
  readonly near: boolean;
}

export interface Mentioned {
  readonly kind: 'landmark' | 'measure' | 'reader' | 'code';
  /** As other files would have it; a measure by the first of its names. */
  readonly name: string;
  /** The one that was asked about. */
  readonly here: Span;
  readonly mentions: readonly Mention[];
}

/** Everything in the file that names what stands at an offset; null where that is nothing that has a name. */
export function mentionsAt(inspection: Inspection, offset: number): Mentioned | null {
  const spot = spotAt(inspection, offset);
  const named = spot && (landmarkAt(spot) ?? measureAt(spot) ?? readerAt(spot) ?? codeAt(spot));
  if (!spot || !named) return null;
  const { kind, name, spanIn } = named;
  const mentions: Mention[] = [];
  for (const one of everyStatement(inspection.tree)) {
    const span = spanIn(one);
    if (!span) continue;
    const { start } = one.placed;
    const declares = mentions.length === 0 && (kind === 'reader' || kind === 'code');
    const near = one.placed === spot.placed && one.groups.at(-1) === spot.groups.at(-1);
    mentions.push({ start: start + span.start, end: start + span.end, declares, near });
  }
  const here = mentions.find(({ start, end }) => start <= offset && offset <= end);
  return here ? { kind, name, here: { start: here.start, end: here.end }, mentions } : null;
}

/** Where a file names a reader or has a study code; counted in the file. */
export function namedIn(tree: Tree, kind: 'reader' | 'code', name: string): Span[] {
  return [...everyStatement(tree)].flatMap((one) => {
    const reader = kind === 'reader' ? readerIn(one) : null;
    const code = kind === 'code' ? codeIn(one) : undefined;
    const span = reader?.value === name ? reader : code && codeImage(code) === name ? spanOf(code) : null;
    return span ? [{ start: one.placed.start + span.start, end: one.placed.start + span.end }] : [];
  });
}

interface NameSearch {
  readonly kind: Mentioned['kind'];
  readonly name: string;
  /** Where a statement names the same. */
  spanIn(one: PlacedStatement): Span | null;
}

/** A landmark is the same in every film and photo of its foot; where no foot is said, in its own picture only. */
function landmarkAt(spot: Spot): NameSearch | null {
  if (spot.statement.kind !== 'placing' || !spot.isHead) return null;
  const { word } = spot.statement;
  const foot = footOf(spot);
  const [picture] = spot.groups;
  return {
    kind: 'landmark',
    name: word,
    spanIn: ({ statement, groups, placed }) => {
      if (statement.kind !== 'placing' || statement.word !== word) return null;
      const same = foot === null ? placed === spot.placed && groups[0] === picture : footOf({ groups }) === foot;
      return same ? statement.head : null;
    },
  };
}

function measureAt(spot: Spot): NameSearch | null {
  const at = measureIn(spot);
  if (!at || at.start !== spot.item.start) return null;
  return {
    kind: 'measure',
    name: at.measure.name,
    spanIn: (one) => (measureIn(one)?.measure === at.measure ? measureIn(one) : null),
  };
}

/** The measure that a statement names, by either of its names. */
export function measureIn({ statement }: Pick<PlacedStatement, 'statement'>) {
  const { kind, word, head, args } = statement;
  const named = args.get('measure')?.[0];
  const at =
    kind === 'limit' || kind === 'taped'
      ? { image: word, start: head.start, end: head.end }
      : named?.kind === 'word'
        ? named
        : null;
  const measure = at && findMeasure(at.image);
  return measure ? { measure, start: at.start, end: at.end } : null;
}

function readerAt(spot: Spot): NameSearch | null {
  const at = readerIn(spot);
  if (!at || at !== spot.item) return null;
  const { value } = at;
  return { kind: 'reader', name: value, spanIn: (one) => (readerIn(one)?.value === value ? readerIn(one) : null) };
}

export function readerIn({ statement }: Pick<PlacedStatement, 'statement'>) {
  const items =
    statement.kind === 'header' && statement.word === 'read'
      ? statement.args.get('reader')
      : statement.kind === 'statement' && statement.word === 'key'
        ? statement.args.get('by')
        : undefined;
  // Before the name of a key's reader stands the word that it goes by.
  return items?.find((item) => item.kind === 'text') ?? null;
}

function codeAt(spot: Spot): NameSearch | null {
  const said = codeIn(spot);
  if (!said?.includes(spot.item)) return null;
  return { kind: 'code', name: codeImage(said), spanIn: (one) => spanOf(codeIn(one) ?? []) };
}

function spanOf(items: readonly Item[]): Span | null {
  const [first] = items;
  return first ? { start: first.start, end: items.at(-1)?.end ?? first.end } : null;
}

function codeIn({ statement }: Pick<PlacedStatement, 'statement'>): readonly Item[] | undefined {
  return statement.kind === 'statement' && statement.word === 'code' ? statement.args.get('code') : undefined;
}
