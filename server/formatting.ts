import type { TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { formatEdits } from '../shared/notation/format.ts';
import { textEditOf } from './ranges.ts';

/** There is one layout of a case file, so the client's options for tabs and blanks are not asked. */
export function formatting(document: TextDocument): TextEdit[] {
  return formatEdits(document.getText()).map((edit) => textEditOf(document, edit));
}
