import type { Range, TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Edit } from '../../shared/notation/problems.ts';
import type { Span } from '../../shared/notation/tree.ts';

/** Offsets to the protocol's lines and UTF-16 characters; `from` is where the block that the span counts from begins. */
export function rangeOf(document: TextDocument, { start, end }: Span, from = 0): Range {
  return { start: document.positionAt(start + from), end: document.positionAt(end + from) };
}

export function textEditOf(document: TextDocument, edit: Edit): TextEdit {
  return { range: rangeOf(document, edit), newText: edit.text };
}
