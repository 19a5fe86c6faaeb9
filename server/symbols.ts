import { SymbolKind, type DocumentSymbol } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../shared/findings/inspect.ts';
import {
  isGroup,
  type Entry,
  type Group,
  type PlacedBlock,
  type Span,
  type Statement,
} from '../shared/notation/tree.ts';
import type { BlockWord } from '../shared/notation/vocabulary.ts';
import { cutWords } from '../shared/report/film-sheet.ts';
import { rangeOf } from './ranges.ts';

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
  return inspection.tree.blocks.flatMap((placed) => {
    const { row, header, entries } = placed.block;
    if (!row || !header || row.word === 'hoof') return [];
    const whole = { start: header.start, end: Math.max(header.end, entries.at(-1)?.end ?? 0) };
    return [symbol(row.word, header, whole, entries, { document, inspection, placed })];
  });
}

interface Where {
  readonly document: TextDocument;
  readonly inspection: Inspection;
  readonly placed: PlacedBlock;
}

function symbol(
  word: BlockWord,
  header: Statement,
  whole: Span,
  entries: readonly Entry[],
  where: Where,
): DocumentSymbol {
  const { document, placed } = where;
  const detail = detailOf(word, whole, where);
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

function detailOf(word: BlockWord, whole: Span, { inspection: { study }, placed }: Where): string | undefined {
  if (word === 'film' || word === 'photo')
    return study.films.find(({ visit, film }) => visit.start === placed.start && film.at.start === whole.start)?.film
      .path.text;
  const cut = study.cuts.find(({ visit, cut }) => visit.start === placed.start && cut.at.start === whole.start);
  return cut && cutWords(cut);
}
