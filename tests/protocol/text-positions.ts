import type { Position, Range, TextEdit } from 'vscode-languageserver';

/** Lines and UTF-16 characters by the protocol's own words, apart from what the server uses. */

export function linesOf(text: string): { start: number; length: number }[] {
  const lines: { start: number; length: number }[] = [];
  const end = /\r\n|\r|\n|$/g;
  for (let start = 0; ;) {
    end.lastIndex = start;
    const found = end.exec(text);
    const at = found?.index ?? text.length;
    lines.push({ start, length: at - start });
    if (!found || found[0] === '') return lines;
    start = at + found[0].length;
  }
}

export function offsetAt(text: string, { line, character }: Position): number {
  const found = linesOf(text)[line];
  if (!found) return text.length;
  return found.start + Math.min(character, found.length);
}

export function positionAt(text: string, offset: number): Position {
  const lines = linesOf(text);
  const line = lines.findLastIndex(({ start }) => start <= offset);
  const found = lines[line] ?? { start: 0, length: 0 };
  return { line, character: Math.min(offset - found.start, found.length) };
}

export function textIn(text: string, { start, end }: Range): string {
  return text.slice(offsetAt(text, start), offsetAt(text, end));
}

/** Edits of one version, applied from the end so that none moves another. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .map((edit, index) => ({ edit, index, at: offsetAt(text, edit.range.start) }))
    .sort((a, b) => b.at - a.at || b.index - a.index)
    .reduce(
      (result, { edit }) =>
        result.slice(0, offsetAt(text, edit.range.start)) + edit.newText + result.slice(offsetAt(text, edit.range.end)),
      text,
    );
}

/** A text with a broken bar where the cursor is. */
export function cursorIn(marked: string): { text: string; position: Position } {
  const offset = marked.indexOf('¦');
  if (offset < 0) throw new Error('no cursor in the text');
  const text = marked.slice(0, offset) + marked.slice(offset + 1);
  return { text, position: positionAt(text, offset) };
}
