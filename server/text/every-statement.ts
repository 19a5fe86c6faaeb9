import {
  isGroup,
  type Entry,
  type Group,
  type PlacedBlock,
  type Span,
  type Statement,
  type Tree,
} from '../../shared/notation/tree.ts';

/** A statement with the groups that it lies in, outermost first; a group's header lies in its group. */
export interface PlacedStatement {
  readonly placed: PlacedBlock;
  readonly groups: readonly Group[];
  readonly statement: Statement;
}

/** In the order of the text, headers included. */
export function* everyStatement({ blocks }: Tree): Generator<PlacedStatement> {
  for (const placed of blocks) yield* statementsOf(placed);
}

export function* statementsOf(placed: PlacedBlock): Generator<PlacedStatement> {
  const { header, entries } = placed.block;
  if (header) yield { placed, groups: [], statement: header };
  yield* within(placed, entries, []);
}

function* within(placed: PlacedBlock, entries: readonly Entry[], groups: readonly Group[]): Generator<PlacedStatement> {
  for (const entry of entries) {
    if (entry.kind === 'prose') continue;
    if (!isGroup(entry)) yield { placed, groups, statement: entry };
    else {
      const inside = [...groups, entry];
      yield { placed, groups: inside, statement: entry.header };
      yield* within(placed, entry.entries, inside);
    }
  }
}

/** The header lines by where they begin; both counted in the file. The record knows only where a block begins and ends. */
export function headersOf(tree: Tree): ReadonlyMap<number, Span> {
  const headers = new Map<number, Span>();
  for (const { placed, statement } of everyStatement(tree)) {
    const start = placed.start + statement.start;
    if (statement.kind === 'header') headers.set(start, { start, end: placed.start + statement.end });
  }
  return headers;
}
