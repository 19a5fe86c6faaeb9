/**
 * What is described in Markdown, as it reads without it: for clients that show no Markdown. It knows what the descriptions
 * here are made of (`markdown.ts`), and no more of the language.
 */
export function plainText(markdown: string): string {
  const lines: string[] = [];
  let rows: string[][] = [];
  const endTable = (): void => {
    lines.push(...laidOut(rows));
    rows = [];
  };
  let fenced = false;
  for (const line of markdown.split('\n')) {
    if (line.startsWith('```')) {
      fenced = !fenced;
      continue;
    }
    if (!fenced && line.startsWith('| ')) {
      rows.push(cells(line).map(inline));
      continue;
    }
    endTable();
    if (fenced) lines.push(line);
    else if (line !== '---') lines.push(inline(line));
  }
  endTable();
  return lines.join('\n').replace(/\n{3,}/g, '\n\n');
}

/** Emphasis, code, links and escaped signs of one line. */
function inline(line: string): string {
  return line.replace(
    /\\([\\`*_[\]<>|~&])|\*\*|`([^`]*)`|\[([^\]]*)\]\(([^)]*)\)/g,
    (_, sign?: string, code?: string, words?: string, to?: string) =>
      sign ?? code ?? (words === undefined ? '' : `${words}: ${to}`),
  );
}

/** The cells of a row `| a | b |`; a bar that is escaped parts none. */
function cells(row: string): string[] {
  return row
    .slice(1)
    .split(/(?<!\\)\|/)
    .slice(0, -1)
    .map((cell) => cell.trim());
}

/** The rows of a table with their columns under one another, without the line below the head. */
function laidOut(rows: readonly string[][]): string[] {
  const kept = rows.filter((row) => !row.every((cell) => cell === '---'));
  const widths = (kept[0] ?? []).map((_, column) => Math.max(...kept.map((row) => (row[column] ?? '').length)));
  return kept.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}
