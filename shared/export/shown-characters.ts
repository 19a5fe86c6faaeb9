/**
 * Characters that a terminal or a reader obeys instead of showing: control characters (C0, DEL, C1), line and paragraph
 * separators, and the marks that turn the direction of writing (Unicode, UAX #9). Line ends and tabs are left out here.
 */
// oxlint-disable-next-line no-control-regex
const obeyed = /\r(?!\n)|[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

const shortForms: Readonly<Record<string, string>> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' };

function escaped(character: string): string {
  return shortForms[character] ?? `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** A text of several lines as it may be shown; its line ends and tabs stay. */
export function shownText(text: string): string {
  return text.replace(obeyed, escaped);
}

/** A text that has to stay within its line: line ends and tabs are shown too. */
export function shownLine(text: string): string {
  return shownText(text).replace(/[\t\r\n]/g, escaped);
}

/** Lines as they may be shown, one below the other, each ended. */
export function shownLines(lines: readonly string[]): string {
  return lines.map((line) => `${shownLine(line)}\n`).join('');
}

/** A document as JSON of which a terminal obeys nothing either; it reads back the same. */
export function shownJson(value: unknown): string {
  return `${shownText(JSON.stringify(value, null, 2))}\n`;
}
