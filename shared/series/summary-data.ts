import type { SummaryJson } from '../export/json-shapes.ts';
import { csv } from '../export/csv.ts';
import { say } from '../findings/wording/wording.ts';
import { counted, t } from '../language/words.ts';
import { groupWords, type SeriesSummary, type SummaryRow } from './summary.ts';

/** How many case files were read, and how many of them were not private where that was asked for. */
export interface CasesRead {
  readonly read: number;
  readonly taken: number;
}

/** What `summary --format json` prints; numbers are not rounded. */
export function summaryDocument(summary: SeriesSummary, { read, taken }: CasesRead): SummaryJson {
  return {
    ungula: 1,
    by: summary.by,
    source: summary.source,
    cases: { read, taken, counted: summary.counted },
    rows: summary.rows().map(figures),
  };
}

/** A row for programs, without words. */
const figures = ({ measure, unit, group, feet, animals, mean, sd, least, greatest }: SummaryRow) => ({
  measure,
  unit,
  group,
  feet,
  animals,
  mean,
  sd,
  least,
  greatest,
});

const columns = [
  'measure',
  'unit',
  'source',
  'by',
  'group',
  'feet',
  'animals',
  'mean',
  'sd',
  'least',
  'greatest',
] as const;

export const summaryCsv = (summary: SeriesSummary): string =>
  csv(
    columns,
    summary.rows().map((row) => ({ ...figures(row), source: summary.source, by: summary.by })),
  );

/** A table for people, a measure after the other, with two decimals. */
export function summaryLines(summary: SeriesSummary, { read, taken }: CasesRead): string[] {
  const rows = summary.rows();
  const lines = [
    counted(read, 'one case read', '{0} cases read') +
      (taken < read ? t(', {0} of them shared under a code', taken) : '') +
      t(', {0} with a value below', summary.counted),
  ];
  if (rows.length === 0) return [...lines, t('No foot has any of these measures on a day that is known.')];
  const head = [t('group'), t('feet'), t('animals'), t('mean'), t('sd'), t('least'), t('greatest')];
  const cells = rows.map((row) => cellsOf(row, summary));
  const widths = head.map((word, place) => Math.max(...[head, ...cells].map((line) => (line[place] ?? word).length)));
  const laid = (line: readonly string[]): string =>
    `  ${line.map((cell, place) => (place === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[place] ?? 0))).join('  ')}`;
  let measure = '';
  rows.forEach((row, index) => {
    if (row.measure !== measure) lines.push('', `${row.words} (${row.measure})`, laid(head));
    measure = row.measure;
    lines.push(laid(cells[index] ?? []));
  });
  return [
    ...lines,
    '',
    t('Each foot counts once in a group. Feet of one animal are no independent sample: go by the number of animals.'),
  ];
}

function cellsOf(
  { group, feet, animals, mean, sd, least, greatest, unit }: SummaryRow,
  { by }: SeriesSummary,
): string[] {
  const figure = (value: number | null): string => (value === null ? '' : say(value, unit, 2));
  return [groupWords(by, group), String(feet), String(animals), ...[mean, sd, least, greatest].map(figure)];
}
