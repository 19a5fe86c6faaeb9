import type { View } from './landmarks.ts';
import type { Entry, Group, Statement } from './tree.ts';
import type { BlockRow, Container } from './vocabulary.ts';

/** A block whose lines are being read. */
export interface OpenGroup {
  readonly row: BlockRow | null;
  /** As it will stand in the tree; null outside every block. */
  readonly group: { -readonly [K in keyof Group]: Group[K] } | null;
  /** Of the innermost picture that is open. */
  readonly view: View | null;
  readonly entries: Entry[];
  readonly parent: OpenGroup | null;
  /** The last block within whose header is whole: it goes on where a later line is one of its own. */
  last: OpenGroup | null;
  /** Of the last block within whose header is not. Its lines count for nothing; that is told at the header alone. */
  lost: BlockRow | null;
  /** The whole line of a block further out that closed it. */
  closedBy: Statement | null;
}

/** A block that begins, with nothing in it that was closed yet. */
export function opened(
  row: BlockRow | null,
  group: OpenGroup['group'],
  view: View | null,
  parent: OpenGroup | null,
  entries: Entry[],
): OpenGroup {
  return { row, group, view, entries, parent, last: null, lost: null, closedBy: null };
}

/** A block as it will stand in the tree, without a line yet. */
export const bare = (row: BlockRow, header: Statement): Group & { entries: Entry[] } => ({
  kind: 'group',
  row,
  header,
  entries: [],
  start: header.start,
  end: header.end,
});

/** What may stand in it goes by this word; outside every block by that of the file. */
export const wordOf = ({ row }: OpenGroup): Container => row?.word ?? 'file';
export const holds = (group: OpenGroup, places: readonly Container[]): boolean => places.includes(wordOf(group));
