import type { CompletionItemKind } from 'vscode-languageserver';

export interface Offer {
  readonly label: string;
  /** What comes after the word, as the docs write it. */
  readonly takes?: string;
  readonly kind: CompletionItemKind;
  readonly documentation?: string;
  /** What is inserted where the client knows no snippets, or the line goes on already. */
  readonly text: string;
  readonly snippet?: string;
  /** Goes behind what is typed, in place of replacing it: a unit behind its number. */
  readonly after?: true;
}
