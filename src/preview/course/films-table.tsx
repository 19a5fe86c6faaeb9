import type { CourseRow, FootCourseSheet } from '../../../shared/report/course-sheet.ts';
import { stopsOf } from '../../../shared/report/course-stave.ts';
import { t } from '../../extension/words.ts';
import { GoToLine } from '../go-to-line.tsx';
import { Changed } from './trend-table.tsx';

interface FilmsProps {
  readonly foot: FootCourseSheet;
  readonly rows: readonly CourseRow[];
  readonly stop: number;
}

/** Every value of every day with films, the newest first; the date is a way to its film. */
export function FilmsTable({ foot, rows, stop }: FilmsProps) {
  if (rows.length === 0) return null;
  const stops = stopsOf(foot);
  return (
    <section aria-labelledby="every-film">
      <h2 id="every-film">{t('Every film in numbers')}</h2>
      <div class="wide-table" role="region" aria-label={t('Table of films')} tabIndex={0}>
        <table class="every-film">
          <thead>
            <tr>
              <th scope="col">{t('Film of')}</th>
              {rows.map(({ measure, words }) => (
                <th key={measure} scope="col">
                  {words}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {stops
              .map(({ date, day }, index) => (
                <tr key={day} class={index === stop ? 'is-lit' : undefined}>
                  <th scope="row">
                    <GoToLine line={foot.films.find((film) => film.day === day)?.line ?? 0}>{date}</GoToLine>
                  </th>
                  {rows.map((row) => (
                    <td key={row.measure}>
                      <DayValue row={row} day={day} />
                    </td>
                  ))}
                </tr>
              ))
              .toReversed()}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function DayValue({ row: { points, changes }, day }: { readonly row: CourseRow; readonly day: number }) {
  const index = points.findLastIndex((point) => point.day === day);
  const point = points[index];
  if (!point) return <span class="quiet">{t('not measured')}</span>;
  return (
    <>
      <span class="value">{point.text}</span>
      <Changed change={changes.find(({ to }) => to === index)} />
    </>
  );
}
