import { SymbolKind, type DocumentSymbol } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import {
  isGroup,
  type Entry,
  type Group,
  type PlacedBlock,
  type Span,
  type Statement,
} from '../../shared/notation/tree.ts';
import type { BlockWord } from '../../shared/notation/vocabulary.ts';
import { cutWords } from '../../shared/views/film-sheet.ts';
import { rangeOf } from '../text/ranges.ts';

const kinds: Readonly<Record<BlockWord, SymbolKind>> = {
  hoof: SymbolKind.File,
  case: SymbolKind.Class,
  limits: SymbolKind.Constant,
  visit: SymbolKind.Event,
  film: SymbolKind.Object,
  photo: SymbolKind.Object,
  tape: SymbolKind.Array,
  plan: SymbolKind.Method,
  trim: SymbolKind.Method,
  read: SymbolKind.Field,
};

/** The blocks of a case, each in the one that holds it. The version line is no block that anyone goes to. */
export function symbols(document: TextDocument, inspection: Inspection): DocumentSymbol[] {
  const details = detailsOf(inspection);
  return inspection.tree.blocks.flatMap((placed) => {
    const { row, header, entries } = placed.block;
    if (!row || !header || row.word === 'hoof') return [];
    const whole = { start: header.start, end: Math.max(header.end, entries.at(-1)?.end ?? 0) };
    return [symbol(row.word, header, whole, entries, { document, details, placed })];
  });
}

interface Where {
  readonly document: TextDocument;
  /** What is told of a block beside its header, by where it begins in the file. */
  readonly details: ReadonlyMap<number, string>;
  readonly placed: PlacedBlock;
}

function symbol(
  word: BlockWord,
  header: Statement,
  whole: Span,
  entries: readonly Entry[],
  where: Where,
): DocumentSymbol {
  const { document, details, placed } = where;
  const detail = details.get(placed.start + whole.start);
  return {
    name: nameOf(word, header),
    ...(detail && { detail }),
    kind: kinds[word],
    range: rangeOf(document, whole, placed.start),
    selectionRange: rangeOf(document, header, placed.start),
    children: entries
      .filter(isGroup)
      .map((group: Group) => symbol(group.row.word, group.header, group, group.entries, where)),
  };
}

/** The header as written, without quotes: `LF lateral` under a film, the date and title of a visit. */
function nameOf(word: BlockWord, header: Statement): string {
  const written = [...header.args.entries()]
    .filter(([name]) => name !== 'path' && name !== 'spread')
    .flatMap(([, items]) =>
      items.map((item) => (item.kind === 'text' ? item.value : 'image' in item ? item.image : '')),
    )
    .filter((part) => part.trim() !== '');
  const naming = word === 'visit' && header.args.has('date') ? [] : [word];
  return [...naming, ...written].join(' ');
}

/** The picture of a film, and what a plan or trim takes off. */
function detailsOf({ study }: Inspection): Map<number, string> {
  const details = new Map<number, string>();
  for (const { visit, film } of study.films) details.set(visit.start + film.at.start, film.path.text);
  for (const { start, is } of study.record.visits)
    for (const { at, path } of is.pictures) details.set(start + at.start, path.text);
  for (const one of study.cuts) details.set(one.visit.start + one.cut.at.start, cutWords(one));
  return details;
}
