import { shownDate } from '../../../shared/language/dates.ts';
import { changesTo } from '../../../shared/drawing/course/changes-to.ts';
import type { ChangeSheet, CourseRow, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import { stopsOf, takenOn } from '../../../shared/views/course-stave.ts';
import { t } from '../../../shared/language/words.ts';
import { GoToLine } from '../go-to-line.tsx';
import { Changed, Taken } from './trend-table.tsx';

interface FilmsProps {
  readonly foot: FootCourseSheet;
  readonly rows: readonly CourseRow[];
  readonly stop: number;
}

/** Every value of every day with films, photos or tapes, the newest first; the date is a way to its film. */
export function FilmsTable({ foot, rows, stop }: FilmsProps) {
  if (rows.length === 0) return null;
  const stops = stopsOf(foot);
  const isFilms = foot.others.length === 0;
  const lines = new Map(
    takenOn(foot)
      .toReversed()
      .map(({ day, line }) => [day, line]),
  );
  const values = rows.map(valuesByDay);
  return (
    <section aria-labelledby="every-film">
      <h2 id="every-film">{isFilms ? t('Every film in numbers') : t('Every day in numbers')}</h2>
      <div class="wide-table" role="region" aria-label={t('Table of films')} tabIndex={0}>
        <table class="every-film">
          <thead>
            <tr>
              <th scope="col">{isFilms ? t('Film of') : t('Day')}</th>
              {rows.map(({ measure, source, words, sourceWords }) => (
                <th key={`${source} ${measure}`} scope="col">
                  <Taken words={words} how={sourceWords} />
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {stops
              .map(({ date, day }, index) => (
                <tr key={day} class={index === stop ? 'is-lit' : undefined}>
                  <th scope="row">
                    <GoToLine line={lines.get(day) ?? 0}>{shownDate(date)}</GoToLine>
                  </th>
                  {rows.map(({ measure, source }, place) => (
                    <td key={`${source} ${measure}`}>
                      <DayValue told={values[place]?.get(day)} />
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

interface DayTold {
  readonly text: string;
  readonly change: ChangeSheet | undefined;
}

/** Of several films of one day the last. */
function valuesByDay({ points, changes }: CourseRow): ReadonlyMap<number, DayTold> {
  const changesAt = changesTo(changes);
  return new Map(points.map(({ day, text }, place) => [day, { text, change: changesAt.get(place) }]));
}

function DayValue({ told }: { readonly told: DayTold | undefined }) {
  if (!told) return <span class="quiet">{t('not measured')}</span>;
  return (
    <>
      <span class="value">{told.text}</span>
      <Changed change={told.change} />
    </>
  );
}
