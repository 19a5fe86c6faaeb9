import { codeImage } from '../../notation/check-items.ts';
import { lineSpanIn, type LineSpan } from '../../notation/line-span.ts';
import { isStatement, type Tree } from '../../notation/tree.ts';

/** What counts of a case file beyond the file itself; small, as a folder may hold thousands. */
export interface CaseFacts {
  readonly name: string | null;
  readonly code: { readonly value: string; readonly at: LineSpan } | null;
}

/** A file holds one case, and says each fact once: the first counts, as in the record. */
export function caseFacts({ blocks }: Tree): CaseFacts {
  const placed = blocks.find(({ block }) => block.row?.word === 'case');
  if (!placed) return { name: null, code: null };
  const name = placed.block.header?.args.get('name')?.[0];
  const said = placed.block.entries.filter(isStatement).find(({ word, whole }) => word === 'code' && whole);
  const items = said?.args.get('code') ?? [];
  const [first] = items;
  const last = items.at(-1);
  return {
    name: name?.kind === 'text' ? name.value : null,
    code:
      said && first && last
        ? { value: codeImage(items), at: lineSpanIn(placed, said.line, { start: first.start, end: last.end }) }
        : null,
  };
}
