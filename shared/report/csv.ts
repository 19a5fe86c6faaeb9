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
const formula = /^[\t\r\n ]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r]/;

/**
 * A text that a spreadsheet would compute has an apostrophe before it, which makes it text there (common practice; OWASP, CSV
 * Injection). Numbers stay what they are.
 */
function field(value: string | number | boolean | null): string {
  const written = value === null ? '' : String(value);
  const text = typeof value === 'string' && formula.test(value) ? `'${written}` : written;
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}
