import type { BlockRow, Container, WordRow } from './vocabulary.ts';
import type { Problem } from './problems.ts';
import type { Span } from './span.ts';

export type { Span } from './span.ts';

export interface Leaf extends Span {
  readonly image: string;
  /** Of a number that is written as a fraction, how it is written; its image is then the same in digits, `3.25` for `3 1/4`. */
  readonly fraction?: string;
}

/** The pieces that a line is made of after its first word. */
export type Item =
  | (Span & { readonly kind: 'text'; readonly value: string; readonly image: string })
  | (Span & { readonly kind: 'date'; readonly image: string })
  | (Span & { readonly kind: 'number'; readonly number: Leaf; readonly unit: Leaf | null })
  | (Span & { readonly kind: 'point'; readonly x: Leaf; readonly y: Leaf })
  | (Span & { readonly kind: 'segment'; readonly from: readonly [Leaf, Leaf]; readonly to: readonly [Leaf, Leaf] })
  | (Span & { readonly kind: 'word'; readonly image: string })
  | (Span & { readonly kind: 'sign'; readonly image: string })
  | (Span & { readonly kind: 'broken'; readonly image: string });

export type ItemKind = Item['kind'];
export type ItemOf<K extends ItemKind> = Extract<Item, { kind: K }>;

/** One line of the file, its end-of-line included; the lines of a block cover its text without a gap. */
export interface Line extends Span {
  readonly items: readonly Item[];
  readonly prose: Leaf | null;
  readonly comment: Leaf | null;
}

/** What a line's arguments are, by the names that the vocabulary gives them and in the order of the line. */
export interface Arguments extends Iterable<[string, readonly Item[]]> {
  get(name: string): readonly Item[] | undefined;
  /** One item of an argument, the first where not said otherwise. */
  item(name: string, nth?: number): Item | undefined;
  has(name: string): boolean;
  entries(): IterableIterator<[string, readonly Item[]]>;
  values(): IterableIterator<readonly Item[]>;
}

export type StatementKind = 'statement' | 'placing' | 'taped' | 'limit' | 'header' | 'unknown';

/** Of a line or block that stands among the lines of another: the block further out that it belongs to. */
interface Guest {
  readonly guestOf?: Container;
}

export interface Statement extends Span, Guest {
  readonly kind: StatementKind;
  readonly word: string;
  readonly head: Leaf;
  readonly row: WordRow | null;
  readonly args: Arguments;
  /** Whether every argument was as the vocabulary wants it; a broken statement gives the record nothing. */
  readonly whole: boolean;
  /** Whether its word is read as the one that it is nearly: it counts, and is told. */
  readonly misspelt?: true;
  readonly line: number;
}

export interface Prose extends Leaf, Guest {
  readonly kind: 'prose';
  readonly line: number;
}

export interface Group extends Span, Guest {
  readonly kind: 'group';
  readonly row: BlockRow;
  readonly header: Statement;
  readonly entries: readonly Entry[];
}

export type Entry = Statement | Group | Prose;

export interface BlockContents {
  readonly row: BlockRow | null;
  readonly header: Statement | null;
  readonly lines: readonly Line[];
  readonly entries: readonly Entry[];
  readonly problems: readonly Problem[];
}

/**
 * One level-0 block with the text up to the next one. Pure in its text: equal texts give equal blocks. What it
 * holds is read when it is first asked for, and kept.
 */
export interface Block extends BlockContents {
  readonly text: string;
}

export interface PlacedBlock {
  /** Offset of the block in the file. */
  readonly start: number;
  /** Line of the block's first line, counted from 0. */
  readonly line: number;
  readonly block: Block;
}

export interface Tree {
  readonly text: string;
  readonly blocks: readonly PlacedBlock[];
}

export function isGroup(entry: Entry): entry is Group {
  return entry.kind === 'group';
}

export function isStatement(entry: Entry): entry is Statement {
  return entry.kind !== 'group' && entry.kind !== 'prose';
}
