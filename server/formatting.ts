import type { TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { format, formatEdits } from '../shared/notation/format.ts';
import { textEditOf } from './ranges.ts';

/** There is one layout of a case file, so the client's options for tabs and blanks are not asked. */
export function formatting(document: TextDocument): TextEdit[] {
  const text = document.getText();
  // Edits that come to nothing would still mark the file as changed.
  if (format(text) === text) return [];
  return formatEdits(text).map((edit) => textEditOf(document, edit));
}
