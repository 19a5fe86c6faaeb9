import { codeImage } from '../../notation/check-items.ts';
import { lineSpanIn, type LineSpan } from '../../notation/line-span.ts';
import { isStatement, type Tree } from '../../notation/tree.ts';
import type { CaseRecord } from '../../record/schema.ts';

/** What counts of a case file beyond the file itself; small, as a folder may hold thousands. */
export interface CaseFacts {
  readonly name: string | null;
  readonly code: { readonly value: string; readonly at: LineSpan } | null;
  /** Of every film and photograph the path as written, each path once. */
  readonly pictures: readonly { readonly path: string; readonly at: LineSpan }[];
}

/** A file holds one case, and says each fact once: the first counts, as in the record. */
export function caseFacts({ blocks }: Tree, record: Pick<CaseRecord, 'visits'>): CaseFacts {
  const placed = blocks.find(({ block }) => block.row?.word === 'case');
  const pictures = picturesIn(blocks, record);
  if (!placed) return { name: null, code: null, pictures };
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
    pictures,
  };
}

function picturesIn(blocks: Tree['blocks'], { visits }: Pick<CaseRecord, 'visits'>): CaseFacts['pictures'] {
  const byStart = new Map(blocks.map((placed) => [placed.start, placed]));
  const found = new Map<string, CaseFacts['pictures'][number]>();
  for (const { start, is } of visits) {
    const placed = byStart.get(start);
    for (const { path, line } of placed ? is.films : [])
      if (placed && !found.has(path.text))
        found.set(path.text, { path: path.text, at: lineSpanIn(placed, line, path.at) });
  }
  return [...found.values()];
}
