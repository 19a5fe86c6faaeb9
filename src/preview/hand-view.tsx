import { shownDate } from '../../shared/language/dates.ts';
import { handSpreadWords } from '../../shared/views/about-measures.ts';
import { pairWords, type PairSheet } from '../../shared/views/pair-sheet.ts';
import type { TapeSheet } from '../../shared/views/tape-sheet.ts';
import type { VisitSheet } from '../../shared/views/visit-sheet.ts';
import { t } from '../../shared/language/words.ts';
import { GoToLine } from './go-to-line.tsx';

/** What was taken by hand, a table a tape; each measure is a way to its line. */
export function HandTables({ tapes }: { readonly tapes: readonly TapeSheet[] }) {
  if (tapes.length === 0) return null;
  return (
    <section class="by-hand" aria-labelledby="by-hand">
      <h2 id="by-hand">{t('By hand')}</h2>
      {tapes.map(({ title, line, rows }) => (
        <table key={line} class="hand-table">
          <caption>{title}</caption>
          <thead>
            <tr>
              {[t('Measure'), t('Value'), t('Since the tape before')].map((word) => (
                <th scope="col">{word}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.measure} data-measure={row.measure}>
                <th scope="row">
                  <GoToLine line={row.line}>{row.words}</GoToLine>
                </th>
                <td class="value">{row.text}</td>
                <td>{row.since}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      <p class="aside">{handSpreadWords()}</p>
    </section>
  );
}

/** Left and right of a pair side by side. */
export function PairTables({ pairs }: { readonly pairs: readonly PairSheet[] }) {
  if (pairs.length === 0) return null;
  return (
    <section class="pairs" aria-labelledby="left-and-right">
      <h2 id="left-and-right">{t('Left and right')}</h2>
      {pairs.map(({ title, rows }) => (
        <table key={title} class="pair-table">
          <caption>{title}</caption>
          <thead>
            <tr>
              {[t('Measure'), t('Left'), t('Right'), t('Left less right')].map((word) => (
                <th scope="col">{word}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ measure, words, left, right, text, said, clear }) => (
              <tr key={measure} data-measure={measure}>
                <th scope="row">{words}</th>
                <td class="value">{left}</td>
                <td class="value">{right}</td>
                <td class="change">
                  {text} <em class={clear ? 'is-clear' : 'is-within'}>{said}</em>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      <p class="aside">{pairWords()}</p>
    </section>
  );
}

/** What was done, seen and worn at a visit, a phrase each. */
export function VisitWords({ visit }: { readonly visit: VisitSheet | null }) {
  if (!visit || visit.done.length + visit.seen.length === 0) return null;
  const { date, title, line, done, seen } = visit;
  return (
    <section class="visit-told" aria-labelledby="visit-told">
      <h2 id="visit-told">
        <GoToLine line={line}>{t('The visit of {0}', date === null ? t('no date') : shownDate(date))}</GoToLine>
      </h2>
      {title !== null && <p class="aside">{title}</p>}
      <ul>
        {[...done, ...seen].map((words) => (
          <li>{words}</li>
        ))}
      </ul>
    </section>
  );
}

interface NoFilmProps {
  readonly tapes: readonly TapeSheet[];
  readonly visit: VisitSheet | null;
}

/** A case without a film: what the hand took at the visit, or at the last one, and what was seen. */
export function NoFilmReading({ tapes, visit }: NoFilmProps) {
  const own = visit ? tapes.filter(({ line }) => visit.line <= line && line <= visit.endLine) : [];
  const newest = tapes.reduce<string>((last, { date }) => (date !== null && date > last ? date : last), '');
  return (
    <div class="reading">
      <HandTables tapes={own.length > 0 ? own : tapes.filter(({ date }) => (date ?? '') === newest)} />
      <VisitWords visit={visit} />
    </div>
  );
}
