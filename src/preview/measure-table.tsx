import { stateWords } from '../../shared/drawing/plate/state-words.ts';
import { familyHeading, restsOn } from '../../shared/views/about-measures.ts';
import { grouped } from '../../shared/views/grouped.ts';
import type { FilmSheet, MeasureRow } from '../../shared/views/film-sheet.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { UsualRule } from './usual-rule.tsx';

interface MeasureTableProps {
  readonly sheet: FilmSheet;
  /** The landmark that the cursor is on. */
  readonly landmark: string | null;
}

/** Every measure of a film, by family, each a way to its line in the text. */
export function MeasureTable({ sheet: { rows }, landmark }: MeasureTableProps) {
  if (rows.length === 0) return null;
  const families = grouped(rows, (row) => familyHeading(row.measure));
  return (
    <section aria-labelledby="measures">
      <h2 id="measures">{t('Measures')}</h2>
      <table class="measures">
        <thead>
          <tr>
            {[t('Measure'), t('Value'), t('Usual'), t('State')].map((word) => (
              <th scope="col">{word}</th>
            ))}
          </tr>
        </thead>
        {[...families].map(([family, own]) => (
          <tbody key={family}>
            <tr>
              <th colSpan={4} scope="rowgroup" class="family">
                {family}
              </th>
            </tr>
            {own.map((row) => (
              <TableRow key={row.measure} row={row} rests={landmark !== null && restsOn(row.measure, landmark)} />
            ))}
          </tbody>
        ))}
      </table>
      <p class="aside">
        {t(
          'After ± stands one standard deviation, from how well the landmarks are placed. Unsure: the value is out of the usual range by less than its error.',
        )}
      </p>
      <Sources rows={rows} />
      <Published rows={rows} />
    </section>
  );
}

function TableRow({ row, rests }: { readonly row: MeasureRow; readonly rests: boolean }) {
  const { go } = useActions();
  const { line } = row;
  const onClick = (): void => {
    // Somebody who marks words to copy them does not want to go anywhere.
    if (line !== null && (getSelection()?.isCollapsed ?? true)) go(line);
  };
  return (
    <tr
      data-measure={row.measure}
      data-line={line ?? undefined}
      class={`state-${row.state}${rests ? ' rests' : ''}`}
      title={titleOf(row)}
      onClick={onClick}
    >
      <th scope="row">
        {line === null ? (
          row.words
        ) : (
          <button type="button" class="go">
            {row.words}
          </button>
        )}
        {row.tape !== null && <small class="tape">{t('by tape {0}', row.tape)}</small>}
      </th>
      <td class="value">{row.text}</td>
      <td class="usual">
        <UsualRule row={row} />
        <span>{row.usualText}</span>
      </td>
      <td class="state">{stateWords[row.state]}</td>
    </tr>
  );
}

function titleOf({ source, published }: MeasureRow): string {
  const lines = [
    ...(source ? [t('Usual range: {0}', source)] : []),
    ...(published.length > 0 ? [t('Published:')] : []),
    ...published,
  ];
  return lines.join('\n');
}

interface Rows {
  readonly rows: readonly MeasureRow[];
}

/** For those who cannot rest a pointer on a row. */
function Sources({ rows }: Rows) {
  const bySource = grouped(
    rows.filter((row) => row.source !== ''),
    (row) => row.source,
  );
  if (bySource.size === 0) return null;
  return (
    <details class="sources">
      <summary>{t('Where the usual ranges come from')}</summary>
      <dl>
        {[...bySource].map(([source, own]) => (
          <>
            <dt>{own.map((row) => row.words).join(', ')}</dt>
            <dd>{source}</dd>
          </>
        ))}
      </dl>
    </details>
  );
}

/** The same for what others have measured. */
function Published({ rows }: Rows) {
  const told = rows.filter((row) => row.published.length > 0);
  if (told.length === 0) return null;
  return (
    <details class="sources">
      <summary>{t('What others have measured')}</summary>
      <dl>
        {told.map((row) => (
          <>
            <dt>{row.words}</dt>
            {row.published.map((line) => (
              <dd>{line}</dd>
            ))}
          </>
        ))}
      </dl>
    </details>
  );
}
