import { restsOn } from '../../../shared/report/about-measures.ts';
import type { FilmSheet } from '../../../shared/report/film-sheet.ts';

/** Every measure as it stands at this moment; those that move with the landmark in the hand are marked. */
export function LiveTable({ live: { rows }, told }: { readonly live: FilmSheet; readonly told: string | null }) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="live-measures">
      <h2 id="live-measures">Measures</h2>
      <table class="live-measures">
        <tbody>
          {rows.map(({ measure, words, text, state }) => (
            <tr
              key={measure}
              data-measure={measure}
              class={`state-${state}${told !== null && restsOn(measure, told) ? ' rests' : ''}`}
            >
              <th scope="row">{words}</th>
              <td class="value">{text}</td>
              <td class="state">{state === 'none' ? '' : state}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
