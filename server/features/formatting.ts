import type { TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { format, formatEdits } from '../../shared/notation/format.ts';
import { formatEditsAfterEnter, formatEditsIn } from '../../shared/notation/format-part.ts';
import type { Span } from '../../shared/notation/tree.ts';
import { textEditOf } from '../text/ranges.ts';

/** There is one layout of a case file, so the client's options for tabs and blanks are not asked. */
export function formatting(document: TextDocument): TextEdit[] {
  const text = document.getText();
  // Edits that come to nothing would still mark the file as changed.
  if (format(text) === text) return [];
  return formatEdits(text).map((edit) => textEditOf(document, edit));
}

/** The same, of the lines that the ranges touch. */
export function rangeFormatting(document: TextDocument, ranges: readonly Span[]): TextEdit[] {
  return formatEditsIn(document.getText(), ranges).map((edit) => textEditOf(document, edit));
}

export const enter = '\n';

/** After a line end: the line that was left, and the indentation of the one that the cursor is in now. */
export function onEnter(document: TextDocument, { tree }: Inspection, offset: number, typed: unknown): TextEdit[] {
  if (typed !== enter) return [];
  const { line } = document.positionAt(offset);
  const start = document.offsetAt({ line, character: 0 });
  return formatEditsAfterEnter(tree, start).map((edit) => textEditOf(document, edit));
}
