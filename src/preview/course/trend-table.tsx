import type { ChangeSheet, CourseRow } from '../../../shared/report/course-sheet.ts';

/** What each measure came to, for those who read numbers. */
export function TrendTable({ rows }: { readonly rows: readonly CourseRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="trends">
      <h2 id="trends">What changed</h2>
      <div class="wide-table" role="region" aria-label="Table of changes" tabIndex={0}>
        <table class="trends">
          <thead>
            <tr>
              {['Measure', 'Newest film', 'Since the film before', 'Since the first film', 'Trend'].map((word) => (
                <th scope="col">{word}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ measure, words, points, changes, overall, trend }) => (
              <tr key={measure} data-measure={measure}>
                <th scope="row">{words}</th>
                <td class="value" data-label="Newest film">
                  {points.at(-1)?.text}
                </td>
                <td data-label="Since the film before">
                  <Changed change={changes.find(({ to }) => to === points.length - 1)} />
                </td>
                <td data-label="Since the first film">
                  <Changed change={overall ?? undefined} />
                </td>
                <td class="trend" data-label="Trend">
                  {trend ? (
                    <>
                      {trend.text}{' '}
                      <span class="quiet">
                        {trend.interval}; by chance alone {trend.chance}
                      </span>
                    </>
                  ) : (
                    <span class="quiet">From the third visit on</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="aside">
        After ± stands one standard deviation. A change is real where it is more than the placing of landmarks explains,
        95 times in 100. By chance alone: how often a foot that does not change would bring its films into so clear an
        order.
      </p>
    </section>
  );
}

/** `−2.1° real`. */
export function Changed({ change }: { readonly change: ChangeSheet | undefined }) {
  if (!change) return null;
  return (
    <span class="change">
      {change.text} <em class={change.real ? 'is-real' : 'is-within'}>{change.real ? 'real' : 'within error'}</em>
    </span>
  );
}
