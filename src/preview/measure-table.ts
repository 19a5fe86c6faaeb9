import { familyHeading, restsOn } from '../../shared/report/about-measures.ts';
import type { FilmSheet, MeasureRow } from '../../shared/report/film-sheet.ts';
import { element } from './element.ts';
import { usualRule } from './usual-rule.ts';

/** Every measure of a film, by family, each a way to its line in the text. */
export function measureTable({ rows }: FilmSheet, landmark: string | null): HTMLElement | null {
  if (rows.length === 0) return null;
  const families = grouped(rows, (row) => familyHeading(row.measure));
  const bodies = [...families].map(([family, own]) =>
    element(
      'tbody',
      { 'data-key': family },
      element('tr', {}, element('th', { colspan: '4', scope: 'rowgroup', class: 'family' }, family)),
      ...own.map((row) => tableRow(row, landmark)),
    ),
  );
  const columns = ['Measure', 'Value', 'Usual', 'State'].map((word) => element('th', { scope: 'col' }, word));
  return element(
    'section',
    { 'aria-labelledby': 'measures', 'data-key': 'measures' },
    element('h2', { id: 'measures' }, 'Measures'),
    element('table', { class: 'measures' }, element('thead', {}, element('tr', {}, ...columns)), ...bodies),
    element(
      'p',
      { class: 'aside' },
      'After ± stands one standard deviation, from how well the landmarks are placed. Unsure: the value is out of the usual range by less than its error.',
    ),
    sources(rows),
    published(rows),
  );
}

function tableRow(row: MeasureRow, landmark: string | null): HTMLElement {
  const rests = landmark !== null && restsOn(row.measure, landmark);
  const line = row.line === null ? null : String(row.line);
  return element(
    'tr',
    {
      'data-measure': row.measure,
      'data-key': row.measure,
      'data-line': line,
      class: `state-${row.state}${rests ? ' rests' : ''}`,
      title: titleOf(row),
    },
    element(
      'th',
      { scope: 'row' },
      line === null ? row.words : element('button', { type: 'button', class: 'go' }, row.words),
      ...(row.tape === null ? [] : [element('small', { class: 'tape' }, `by tape ${row.tape}`)]),
    ),
    element('td', { class: 'value' }, row.text),
    element('td', { class: 'usual' }, usualRule(row), element('span', {}, row.usualText)),
    element('td', { class: 'state' }, row.state === 'none' ? '' : row.state),
  );
}

function titleOf({ source, published }: MeasureRow): string {
  const lines = [
    ...(source ? [`Usual range: ${source}`] : []),
    ...(published.length > 0 ? ['Published:'] : []),
    ...published,
  ];
  return lines.join('\n');
}

/** For those who cannot rest a pointer on a row. */
function sources(rows: readonly MeasureRow[]): HTMLElement | null {
  const bySource = grouped(
    rows.filter((row) => row.source !== ''),
    (row) => row.source,
  );
  if (bySource.size === 0) return null;
  return element(
    'details',
    { class: 'sources' },
    element('summary', {}, 'Where the usual ranges come from'),
    element(
      'dl',
      {},
      ...[...bySource].flatMap(([source, own]) => [
        element('dt', {}, own.map((row) => row.words).join(', ')),
        element('dd', {}, source),
      ]),
    ),
  );
}

/** The same for what others have measured. */
function published(rows: readonly MeasureRow[]): HTMLElement | null {
  const told = rows.filter((row) => row.published.length > 0);
  if (told.length === 0) return null;
  return element(
    'details',
    { class: 'sources', 'data-key': 'published' },
    element('summary', {}, 'What others have measured'),
    element(
      'dl',
      {},
      ...told.flatMap((row) => [element('dt', {}, row.words), ...row.published.map((line) => element('dd', {}, line))]),
    ),
  );
}

function grouped(rows: readonly MeasureRow[], by: (row: MeasureRow) => string): Map<string, MeasureRow[]> {
  const groups = new Map<string, MeasureRow[]>();
  for (const row of rows) groups.set(by(row), [...(groups.get(by(row)) ?? []), row]);
  return groups;
}
