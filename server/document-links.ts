import type { DocumentLink } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../shared/findings/inspect.ts';
import { everyStatement } from './every-statement.ts';
import { rangeOf } from './ranges.ts';
import { beside } from './stored-scales.ts';

/** The pictures beside the case file. A path that is none of there gets no link: a case file from elsewhere leads nowhere else. */
export function documentLinks(document: TextDocument, { tree }: Inspection): DocumentLink[] {
  const links: DocumentLink[] = [];
  for (const { placed, statement } of everyStatement(tree)) {
    const path = statement.whole && statement.kind === 'header' ? statement.args.get('path')?.[0] : undefined;
    const target = path?.kind === 'text' ? beside(document.uri, path.value) : null;
    if (!path || target === null) continue;
    const inside = { start: path.start + 1, end: path.end - 1 };
    links.push({ range: rangeOf(document, inside, placed.start), target, tooltip: 'Open the picture' });
  }
  return links;
}
