import type { Inspection } from '../findings/inspect.ts';
import { feet, type FootName } from '../notation/choices.ts';
import { codeImage } from '../notation/check-items.ts';
import type { Argument } from '../notation/signature.ts';
import { isGroup, isStatement, type Entry, type Statement } from '../notation/tree.ts';
import { blocks, limitForms, statements } from '../notation/vocabulary.ts';

/**
 * All that a case file says in words that nobody can foresee, and its dates: what does not leave unless it is asked for. It is read off
 * the tree by the vocabulary, so that a new word that takes a text is held back from its first day.
 */

/** `line`: one that is not understood; `remark`: behind `#`. These two never leave. */
export const textKinds = ['name', 'person', 'reader', 'number', 'picture', 'date', 'text', 'remark', 'line'] as const;
export type TextKind = (typeof textKinds)[number];

export interface SaidText {
  readonly kind: TextKind;
  /** The word of the notation that it is said with; `prose`, `remark` and `line` for what has none. */
  readonly word: string;
  readonly text: string;
  /** Where the level-0 block begins that it stands in. */
  readonly block: number;
  readonly feet: readonly FootName[];
}

/** What stands behind these words names somebody or something; behind any other it is a text. */
const named: Readonly<Record<string, TextKind>> = {
  case: 'name',
  farrier: 'person',
  by: 'person',
  read: 'reader',
  // Of which file and whose reading a lesson's key is.
  key: 'reader',
  film: 'picture',
  photo: 'picture',
};

const rows = [...blocks, ...statements];
const argumentsOf = (word: string): readonly Argument[] =>
  rows.flatMap((row) => (row.word === word ? [...row.takes, ...Object.values(row.takesIn ?? {}).flat()].flat() : []));

/** Words whose texts may stand in the table of texts, persons among them. */
export const wordsWithText: readonly string[] = [
  ...rows
    .filter(({ word }) => argumentsOf(word).some(({ take }) => take === 'text' || take === 'word'))
    .map(({ word }) => word)
    .filter((word) => (named[word] ?? 'person') === 'person'),
  ...(limitForms.flat().some(({ take }) => take === 'text') ? ['limits'] : []),
];

/** In the order of the file. */
export function saidTexts({ tree }: Pick<Inspection, 'tree'>): SaidText[] {
  return tree.blocks.flatMap(({ start, block }) => {
    const inBlock = block.row?.word ?? null;
    const said: SaidText[] = [];
    const add = (kind: TextKind, word: string, text: string, of: readonly FootName[] = []): void => {
      if (text !== '') said.push({ kind, word, text, block: start, feet: of });
    };
    const look = (statement: Statement, within: readonly FootName[]): void => {
      const { whole, kind, row } = statement;
      if (!whole) return add('line', 'line', statement.word);
      const word = kind === 'limit' ? 'limits' : (row?.word ?? statement.word);
      const own = feetIn(statement);
      const of = own.length > 0 ? own : within;
      const known = wordsKnown(word);
      for (const [name, items] of statement.args) {
        if (name === 'code') continue;
        if (numbers.has(word)) add('number', word, codeImage(items));
        else
          for (const item of items) {
            if (item.kind === 'text') add(kindOf(word, inBlock), word, item.value, of);
            else if (item.kind === 'date') add('date', word, item.image);
            else if (item.kind === 'word' && known && name === 'signs' && !known.includes(item.image))
              add('text', word, item.image, of);
          }
      }
      if (word === 'foaled' || word === 'onset') yearAlone(statement, add);
    };
    const walk = (entry: Entry, within: readonly FootName[]): void => {
      if (isGroup(entry)) {
        look(entry.header, within);
        const of = feetIn(entry.header);
        for (const inner of entry.entries) walk(inner, of);
      } else if (isStatement(entry)) look(entry, within);
      else add('text', 'prose', entry.image, within);
    };
    if (block.header) look(block.header, []);
    for (const entry of block.entries) walk(entry, []);
    for (const { comment } of block.lines) if (comment) add('remark', 'remark', comment.image);
    return said;
  });
}

/** Chip and life number: they take a code that is not the study's. */
const numbers: ReadonlySet<string> = new Set(
  rows
    .filter(({ word, takes }) => word !== 'code' && takes.flat().some(({ take }) => take === 'code'))
    .map(({ word }) => word),
);

const kindOf = (word: string, block: string | null): TextKind =>
  word === 'vet' && block === 'case' ? 'person' : (named[word] ?? 'text');

function feetIn({ args }: Statement): FootName[] {
  const items = [...(args.get('feet') ?? []), ...(args.get('foot') ?? [])];
  return items.flatMap((item) => (item.kind === 'word' ? feet.filter((foot) => foot === item.image) : []));
}

/** The words of an argument that keeps any other word too; null where there is none. */
function wordsKnown(word: string): readonly string[] | null {
  for (const argument of argumentsOf(word)) if (argument.take === 'word') return argument.known;
  return null;
}

function yearAlone({ args, word }: Statement, add: (kind: TextKind, word: string, text: string) => void): void {
  const item = args.item('date');
  if (item?.kind === 'number') add('date', word, item.number.image);
}
