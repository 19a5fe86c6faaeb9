import { MarkupKind, type MarkupContent } from 'vscode-languageserver';
import { plainText } from './plain-text.ts';

/** A description in the form that the client wants. */
export function markup(markdown: string, kind: MarkupKind): MarkupContent {
  return { kind, value: kind === MarkupKind.Markdown ? markdown : plainText(markdown) };
}
