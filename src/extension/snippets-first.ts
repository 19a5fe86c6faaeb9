import type { CompletionItem, CompletionList } from 'vscode';

/** Words that a snippet of the extension begins with (`snippets/hoof.json`). */
export const wordsWithSnippet: ReadonlySet<string> = new Set([
  'film',
  'hoof',
  'insulin',
  'landing',
  'medicine',
  'photo',
  'plan',
  'seen',
  'shoe',
  'tape',
  'testers',
  'trim',
  'visit',
]);

/**
 * What the server offers, with the bare word behind its snippet: `hoof` and Enter gives a whole first case. The editor sorts its
 * own snippets as `z-…`, and cannot be told otherwise.
 */
export function snippetsFirst<Offered extends readonly CompletionItem[] | CompletionList | null | undefined>(
  offered: Offered,
): Offered {
  const items = offered && 'items' in offered ? offered.items : (offered ?? []);
  for (const item of items as readonly CompletionItem[]) {
    const word = typeof item.label === 'string' ? item.label : item.label.label;
    if (wordsWithSnippet.has(word)) item.sortText = `zz-${item.sortText ?? word}`;
  }
  return offered;
}
