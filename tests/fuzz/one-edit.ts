import type { Range, TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { linesOf } from '../protocol/text-positions.ts';

export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The shortest stretch that has to be replaced to come from one text to the other; never half of a CR LF. */
export function editBetween(before: string, after: string): Edit {
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  let behind = 0;
  while (behind < shorter - start && before[before.length - 1 - behind] === after[after.length - 1 - behind]) behind++;
  const splits = (text: string, at: number): boolean => text[at - 1] === '\r' && text[at] === '\n';
  // No place of the protocol lies between the two.
  if (splits(before, start) || splits(after, start)) start--;
  if (splits(before, before.length - behind) || splits(after, after.length - behind)) behind--;
  return { start, end: before.length - behind, text: after.slice(start, after.length - behind) };
}

/** The edit in the protocol's words. */
export function changeOf(before: string, { start, end, text }: Edit): TextDocumentContentChangeEvent {
  return { range: rangeOf(before, start, end), text };
}

export function rangeOf(text: string, start: number, end: number): Range {
  const lines = linesOf(text);
  const place = (offset: number): Range['start'] => {
    const line = lines.findLastIndex((one) => one.start <= offset);
    return { line, character: offset - (lines[line]?.start ?? 0) };
  };
  return { start: place(start), end: place(end) };
}
