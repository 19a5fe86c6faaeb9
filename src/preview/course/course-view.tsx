import { useMemo, useState } from 'preact/hooks';
import { handSpreadWords } from '../../../shared/views/about-measures.ts';
import type { CourseRow, CourseSheet, FootCourseSheet } from '../../../shared/views/course-sheet.ts';
import {
  chosenRows,
  courseBegins,
  staveKey,
  stopsOf,
  takenOn,
  withDaysOf,
} from '../../../shared/views/course-stave.ts';
import { firstRows } from '../../../shared/views/first-measures.ts';
import type { CourseChoice } from '../../messages/course-messages.ts';
import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';
import { PlateView } from '../plate-view.tsx';
import { emptyPlate } from '../plate.ts';
import { newestDays } from '../../../shared/report/newest-days.ts';
import { Toggle, Toggles } from '../toggles.tsx';
import { stopAtLine } from '../cursor-stop.ts';
import { FilmsTable } from './films-table.tsx';
import { FourFeetView } from './four-feet-view.tsx';
import { MeasureChoice } from './measure-choice.tsx';
import { SaveRow } from './save-row.tsx';
import { StaveView } from './stave-view.tsx';
import { TrendTable } from './trend-table.tsx';

export interface CourseProps {
  /** Null while it is computed. */
  readonly course: CourseSheet | null;
  readonly caseName: string;
  readonly fileName: string;
  readonly choice: CourseChoice | null;
  /** The line of the text that the page is about, from 0. */
  readonly line: number | null;
  readonly said: string | null;
}

/** What the films of a foot say together. */
export function CourseView({ course: whole, choice, line, ...rest }: CourseProps) {
  const course = useMemo(() => whole && { feet: whole.feet.map((one) => newestDays(one)) }, [whole]);
  if (!course || !whole) return <p class="aside">{t('The course is being computed.')}</p>;
  const feet = course.feet.filter((foot) => stopsOf(foot).length > 1);
  const foot = feet.find((one) => one.foot === choice?.foot) ?? footAt(feet, line) ?? feet[0];
  if (!foot) return <Nothing />;
  return (
    <div class="course">
      <FootCourse
        key={foot.foot}
        course={course}
        feet={feet}
        foot={foot}
        whole={whole.feet.find((one) => one.foot === foot.foot) ?? foot}
        measures={choice?.measures ?? null}
        line={line}
        {...rest}
      />
    </div>
  );
}

function Nothing() {
  return (
    <figure class="course empty">
      <PlateView input={emptyPlate(courseBegins())} hides={[]} lineOf={() => null} onPress={() => undefined} />
    </figure>
  );
}

/** The foot that the film at this line is of. */
function footAt(feet: readonly FootCourseSheet[], line: number | null): FootCourseSheet | undefined {
  return feet.find((foot) => takenOn(foot).some((one) => one.line === line));
}

interface FootProps extends Pick<CourseProps, 'caseName' | 'fileName' | 'line' | 'said'> {
  readonly course: CourseSheet;
  readonly feet: readonly FootCourseSheet[];
  readonly foot: FootCourseSheet;
  /** The same with every day, however many there are. */
  readonly whole: FootCourseSheet;
  readonly measures: readonly string[] | null;
}

function FootCourse({ course, feet, foot, whole, measures, caseName, fileName, line, said }: FootProps) {
  const { chooseCourse, go } = useActions();
  const rows = useMemo(() => chosenRows(foot, measures), [foot, measures]);
  const all = [...new Set(foot.rows.map(({ measure }) => measure))];
  const isMore = foot.rows.length > firstRows(foot.rows).length;
  const showsAll = measures !== null && rows.length === foot.rows.length;
  const shown = useMemo(() => withDaysOf(foot, rows), [foot, rows]);
  const taken = useMemo(() => takenOn(shown), [shown]);
  const stops = useMemo(() => stopsOf(shown), [shown]);
  const days = stops.map(({ day }) => day);
  const [moved, setMoved] = useState<{ readonly stop: number; readonly line: number | null } | null>(null);
  // Where a person put it, until the text is about another film.
  const own = moved && moved.line === line && moved.stop < stops.length ? moved.stop : null;
  const stop = own ?? stopAtLine(taken, days, line) ?? stops.length - 1;
  const lineOf = (at: number): number | null => taken.find(({ day }) => day === days[at])?.line ?? null;
  const press = (at: number): void => {
    const to = lineOf(at);
    if (to !== null) go(to);
  };
  return (
    <>
      <figure>
        <figcaption>
          <span class="title">
            {shown.others.length > 0 ? t('{0}, day to day', foot.words) : t('{0}, film to film', foot.words)}
          </span>
          {feet.length > 1 && (
            <Toggles label={t('Foot')}>
              {feet.map((one) => (
                <Toggle pressed={one === foot} onPress={() => chooseCourse({ foot: one.foot })}>
                  {one.words}
                </Toggle>
              ))}
            </Toggles>
          )}
          {isMore && (
            <Toggles label={t('How much')}>
              <Toggle pressed={showsAll} onPress={() => chooseCourse({ measures: showsAll ? null : all })}>
                {t('All measures')}
              </Toggle>
            </Toggles>
          )}
          <MeasureChoice
            foot={foot}
            shown={[...new Set(rows.map(({ measure }) => measure))]}
            isChosen={measures !== null}
          />
        </figcaption>
        {rows.length > 0 ? (
          <StaveView
            foot={shown}
            rows={rows}
            caseName={caseName}
            stop={stop}
            onStop={(to) => setMoved({ stop: to, line })}
            onPress={press}
          />
        ) : (
          <p>{t('No measure is chosen: choose one under “Measures shown”.')}</p>
        )}
        <SaveRow
          foot={foot}
          whole={whole}
          rows={rows}
          stop={stop}
          caseName={caseName}
          fileName={fileName}
          said={said}
        />
        <p class="aside">{staveKey(rows)}</p>
        {whole !== foot && (
          <p class="aside">
            {t('The newest {0} days with films are shown; the numbers saved as CSV hold all of them.', stops.length)}
          </p>
        )}
      </figure>
      {rows.some(({ source }) => source === 'hand') && <p class="aside">{handSpreadWords()}</p>}
      <Sinking foot={foot} />
      {foot.doubt !== '' && <p class="doubt">{foot.doubt}</p>}
      {foot.scales !== '' && <p class="doubt">{foot.scales}</p>}
      <GrowOut rows={rows} />
      <TrendTable rows={rows} />
      <FourFeetView course={course} rows={rows} />
      <FilmsTable foot={shown} rows={rows} stop={stop} />
    </>
  );
}

function Sinking({ foot: { sinking } }: { readonly foot: FootCourseSheet }) {
  if (!sinking) return null;
  return (
    <p class={sinking.told ? 'sinking is-told' : 'sinking'}>
      <strong>{t('Sinking in the capsule')}</strong>: <span class="told">{sinking.text}</span>
    </p>
  );
}

function GrowOut({ rows }: { readonly rows: readonly CourseRow[] }) {
  const words = rows.flatMap(({ growOut }) => growOut?.text ?? []);
  return words.length > 0 ? <p class="grow-out">{words.join(' ')}</p> : null;
}
