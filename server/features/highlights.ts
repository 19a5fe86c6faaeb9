import { DocumentHighlightKind, type DocumentHighlight } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { mentionsAt } from './mentions.ts';
import { rangeOf } from '../text/ranges.ts';

/** The landmark in the reading that the cursor is in stands out from the same one in other readings and films. */
export function highlights(document: TextDocument, inspection: Inspection, offset: number): DocumentHighlight[] {
  const found = mentionsAt(inspection, offset);
  return (found?.mentions ?? []).map((mention) => ({
    range: rangeOf(document, mention),
    kind: found?.kind === 'landmark' && mention.near ? DocumentHighlightKind.Write : DocumentHighlightKind.Text,
  }));
}
