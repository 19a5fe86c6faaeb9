import {
  isGroup,
  isStatement,
  type BlockContents,
  type Entry,
  type Line,
  type Span,
  type Statement,
} from '../notation/tree.ts';
import { unreadState, type UnreadState } from './unread-state.ts';

/** Adds to a state what the lines of a block say of it that are not understood, those within its films, tapes and cuts too. */
export function unreadIn(
  { header, lines, entries }: Pick<BlockContents, 'header' | 'lines' | 'entries'>,
  state: UnreadState,
): void {
  const add = (statement: Statement): void => {
    if (!mayTell(statement, lines[statement.line])) return;
    const found = unreadState(lines[statement.line] as Line);
    state.gradesUnread.push(...found.gradesUnread);
    state.signs.push(...found.signs);
    state.pulses.push(...found.pulses);
    state.temperatures.push(...found.temperatures);
  };
  const look = (within: readonly Entry[]): void => {
    for (const entry of within) {
      if (isStatement(entry)) add(entry);
      if (!isGroup(entry)) continue;
      add(entry.header);
      look(entry.entries);
    }
  };
  if (header) add(header);
  look(entries);
  const byPlace = (one: { readonly at: Span }, other: { readonly at: Span }): number => one.at.start - other.at.start;
  state.gradesUnread.sort(byPlace);
  state.signs.sort(byPlace);
  state.pulses.sort(byPlace);
  state.temperatures.sort(byPlace);
}

/** A line that is not understood; or one of a tape without a unit, `obl 4`, which is read as a measure whatever its word. */
function mayTell({ kind, whole }: Statement, line: Line | undefined): boolean {
  const [, value] = line?.items ?? [];
  if (kind === 'taped') return value?.kind === 'number' && value.unit === null;
  return line !== undefined && !whole && kind !== 'placing';
}
