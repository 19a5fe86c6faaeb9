/** Rows of named columns as RFC 4180 has them, a header first. */
export function csv<C extends string>(
  columns: readonly C[],
  rows: readonly Readonly<Record<C, string | number | boolean | null>>[],
): string {
  return [columns.map(field), ...rows.map((row) => columns.map((column) => field(row[column])))]
    .map((fields) => `${fields.join(',')}\r\n`)
    .join('');
}

function field(value: string | number | boolean | null): string {
  const text = value === null ? '' : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}
