import { shownText } from './shown-characters.ts';

/** Rows of named columns as RFC 4180 has them, a header first. */
export function csv<C extends string>(
  columns: readonly C[],
  rows: readonly Readonly<Record<C, string | number | boolean | null>>[],
): string {
  return [columns.map(field), ...rows.map((row) => columns.map((column) => field(row[column])))]
    .map((fields) => `${fields.join(',')}\r\n`)
    .join('');
}

/** What a spreadsheet would take for a formula, in its full-width forms too. */
const formula = /^[\s"]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r]/;

/**
 * The same behind what separates cells for a reader that expects `;` or tabs. Such a reader sees quotes only where a cell
 * begins, so it cuts a quoted text in pieces, and each piece has to be harmless of its own.
 */
const formulaWithin = /([;\t\r\n])(?=[\s"]*[=+\-@\uff1d\uff0b\uff0d\uff20])/g;

/**
 * A text that a spreadsheet would compute has an apostrophe before it, which makes it text there (common practice; OWASP, CSV
 * Injection). Numbers stay what they are. Control characters are shown.
 */
function field(value: string | number | boolean | null): string {
  if (typeof value !== 'string') return value === null ? '' : String(value);
  const harmless = value.replace(formulaWithin, "$1'");
  const text = shownText(formula.test(value) ? `'${harmless}` : harmless);
  return /[";,\t\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}
