import type { ChangeSheet, CourseRow } from '../../../shared/views/course-sheet.ts';
import { t } from '../../../shared/language/words.ts';

const filmHeads = {
  newest: t('Newest film'),
  before: t('Since the film before'),
  first: t('Since the first film'),
  trend: t('Trend'),
};
/** Where not all is of films. */
const anyHeads = {
  newest: t('Newest'),
  before: t('Since the one before'),
  first: t('Since the first'),
  trend: t('Trend'),
};

/** What each measure came to, for those who read numbers. */
export function TrendTable({ rows }: { readonly rows: readonly CourseRow[] }) {
  if (rows.length === 0) return null;
  const heads = rows.every(({ source }) => source === 'film') ? filmHeads : anyHeads;
  return (
    <section aria-labelledby="trends">
      <h2 id="trends">{t('What changed')}</h2>
      <div class="wide-table" role="region" aria-label={t('Table of changes')} tabIndex={0}>
        <table class="trends">
          <thead>
            <tr>
              {[t('Measure'), ...Object.values(heads)].map((word) => (
                <th scope="col">{word}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ measure, words, source, sourceWords, points, changes, overall, trend }) => (
              <tr key={`${source} ${measure}`} data-measure={measure} data-source={source}>
                <th scope="row">
                  <Taken words={words} how={sourceWords} />
                </th>
                <td class="value" data-label={heads.newest}>
                  {points.at(-1)?.text}
                </td>
                <td data-label={heads.before}>
                  <Changed change={changes.find(({ to }) => to === points.length - 1)} />
                </td>
                <td data-label={heads.first}>
                  <Changed change={overall ?? undefined} />
                </td>
                <td class="trend" data-label={heads.trend}>
                  {trend ? (
                    trend.text
                  ) : (
                    <span class="quiet">
                      {source === 'film' ? t('Takes three films that can be compared') : t('Takes three days')}
                    </span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="aside">
        {t(
          'After ± stands one standard deviation. A change is clear where it is more than its error, 19 times in 20, and more than two films of a foot that has not changed differ by. A trend is a range, as films have errors; five films are the fewest that can be sure of one.',
        )}
      </p>
    </section>
  );
}

/** The words of a measure, and how it was taken where that was not on film. */
export function Taken({ words, how }: { readonly words: string; readonly how: string }) {
  return how === '' ? (
    <>{words}</>
  ) : (
    <>
      {words} <small class="taken">{how}</small>
    </>
  );
}

export function clearWord({ clear, doubted }: ChangeSheet): string {
  return doubted ? t('scale in doubt') : clear ? t('clear') : t('within the error');
}

/** `−2.1° clear`. */
export function Changed({ change }: { readonly change: ChangeSheet | undefined }) {
  if (!change) return null;
  return (
    <span class="change">
      {change.text} <em class={change.clear ? 'is-clear' : 'is-within'}>{clearWord(change)}</em>
      {change.shoe && <span class="quiet">; {change.shoe}</span>}
    </span>
  );
}
