import { isGroup, type BlockContents, type Entry, type Span, type Statement } from '../notation/tree.ts';
import * as read from './arguments.ts';
import type { Acceptance } from './schema.ts';

/** What is accepted in a level-0 block and in the blocks within it, in the order of the text. */
export function bindAccepts({ header, entries, row }: BlockContents): Acceptance[] {
  const found: Acceptance[] = [];
  const start = header?.start ?? 0;
  collect(entries, row?.word ?? '', { start, end: entries.at(-1)?.end ?? header?.end ?? start }, found);
  return found;
}

function collect(entries: readonly Entry[], block: string, within: Span, found: Acceptance[]): void {
  for (const entry of entries) {
    if (isGroup(entry)) collect(entry.entries, entry.row.word, read.spanOf(entry), found);
    else if (entry.kind === 'statement' && entry.word === 'accept' && entry.whole) {
      const acceptance = bind(entry, block, within);
      if (acceptance) found.push(acceptance);
    }
  }
}

function bind(statement: Statement, block: string, within: Span): Acceptance | null {
  const [code] = read.wordsOf(statement, 'finding');
  const [measure] = read.wordsOf(statement, 'measure');
  const because = read.textOf(statement, 'reason');
  if (!code || !because) return null;
  return {
    code: code.word,
    codeAt: code.at,
    measure: measure?.word ?? null,
    measureAt: measure?.at ?? null,
    because,
    block,
    within,
    at: read.spanOf(statement),
  };
}
