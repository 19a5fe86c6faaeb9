import type { Location } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../shared/findings/inspect.ts';
import { mentionsAt } from './mentions.ts';
import { rangeOf } from './ranges.ts';

/** In this file only: a reader or a study code of another case is somebody else's. */
export function references(
  document: TextDocument,
  inspection: Inspection,
  offset: number,
  { declaration }: { readonly declaration: boolean },
): Location[] {
  return (mentionsAt(inspection, offset)?.mentions ?? [])
    .filter(({ declares }) => declaration || !declares)
    .map((mention) => ({ uri: document.uri, range: rangeOf(document, mention) }));
}
