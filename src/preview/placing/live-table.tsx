import { measureChoices, restsOn } from '../../../shared/views/about-measures.ts';
import type { FilmSheet, MeasureRow } from '../../../shared/views/film-sheet.ts';
import { measuresWanted, wantedIn } from '../../../shared/views/what-to-place.ts';
import { stateWords } from '../../../shared/drawing/plate/state-words.ts';
import { t } from '../../../shared/language/words.ts';

interface LiveTableProps {
  readonly live: FilmSheet;
  readonly wanted: readonly string[];
  /** The landmark in the hand: what rests on it is marked. */
  readonly told: string | null;
}

/** What is wanted, with its place kept from the beginning, so that nothing moves when a number comes. */
export function WantedTable({ live, wanted, told }: LiveTableProps) {
  const names = measuresWanted(live.view, wantedIn(live, wanted));
  const words = new Map(measureChoices(live).map((one) => [one.name, one.words]));
  return (
    <section aria-labelledby="live-measures">
      <h2 id="live-measures">{t('Measures')}</h2>
      <LiveRows
        rows={names.map((name) => {
          const row = live.rows.find(({ measure }) => measure === name);
          return row ?? { measure: name, words: words.get(name) ?? name, text: '', state: 'none' };
        })}
        told={told}
      />
    </section>
  );
}

/** What the places give besides. */
export function OtherTable({ live, wanted, told }: LiveTableProps) {
  const names = new Set<string>(measuresWanted(live.view, wantedIn(live, wanted)));
  const rows = live.rows.filter(({ measure }) => !names.has(measure));
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="other-measures">
      <h2 id="other-measures">{t('Measured besides')}</h2>
      <LiveRows rows={rows} told={told} />
    </section>
  );
}

interface RowsProps {
  readonly rows: readonly Pick<MeasureRow, 'measure' | 'words' | 'text' | 'state'>[];
  readonly told: string | null;
}

function LiveRows({ rows, told }: RowsProps) {
  return (
    <table class="live-measures">
      <tbody>
        {rows.map(({ measure, words, text, state }) => (
          <tr
            key={measure}
            data-measure={measure}
            class={`state-${state}${text === '' ? ' is-open' : ''}${told !== null && restsOn(measure, told) ? ' rests' : ''}`}
          >
            <th scope="row">{words}</th>
            <td class="value">{text}</td>
            <td class="state">{stateWords[state]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
