import { shownDate } from '../language/dates.ts';
import { t } from '../language/words.ts';
import { tapedCourseOf, type CourseChange } from '../course/course.ts';
import { tapesOfVisit, type TapeTaken } from '../course/taped-series.ts';
import type { Inspection } from '../findings/inspect.ts';
import { footWords, sayClear, saySigned, sayWithSpread, sentence, wordsFor } from '../findings/wording/wording.ts';
import { feet, type FootName } from '../notation/choices.ts';
import { LineMap } from '../notation/line-map.ts';
import type { MeasureRow } from './measure-rows.ts';
import type { Study } from '../trim/study.ts';

/** What a hand took of one foot at one visit, as a person looks at it. Plain data; words are ready to be shown. */
export interface TapeSheet {
  /** `Left fore, by hand, 2026-05-04`. */
  readonly title: string;
  readonly foot: FootName;
  readonly date: string | null;
  /** From 0. */
  readonly line: number;
  readonly rows: readonly TapeRow[];
}

/** `Toe length`, `88.0 mm ± 2.0`. */
export interface TapeRow extends Pick<MeasureRow, 'measure' | 'words' | 'value' | 'sd' | 'unit' | 'text'> {
  /** Since the tape before of an earlier day, `−4.0 mm, within the error`; empty where there is none. */
  readonly since: string;
  readonly line: number;
}

/** In the order of the text. */
export function tapeSheets({ study, tree }: Pick<Inspection, 'study' | 'tree'>): TapeSheet[] {
  const { visits } = study.record;
  const tapes = visits.flatMap((visit) => tapesOfVisit(visit));
  if (tapes.length === 0) return [];
  const map = new LineMap(tree.text);
  const changes = changesByPlace(study);
  return tapes.map((tape): TapeSheet => {
    const { visit, foot, date, line, values } = tape;
    return {
      title: t('{0}, by hand{1}', sentence(footWords[foot]), date === null ? '' : `, ${shownDate(date)}`),
      foot,
      date,
      line: visit.line + line,
      rows: values.map(({ measure, value, sd, at }) => {
        const change = changes.get(placeOf(tape, measure.name));
        return {
          measure: measure.name,
          words: sentence('view' in measure ? wordsFor(measure, foot) : measure.words),
          value,
          sd,
          unit: measure.unit,
          text: sayWithSpread({ value, unit: measure.unit, sd }),
          since: change ? `${saySigned(change.difference, measure.unit)}, ${sayClear(change)}` : '',
          line: map.at(visit.start + at.start).line,
        };
      }),
    };
  });
}

type Place = Pick<TapeTaken, 'visit' | 'foot' | 'line'>;

const placeOf = ({ visit, foot, line }: Place, measure: string): string => `${visit.start} ${foot} ${line} ${measure}`;

/** The change that leads to each value, by the tape that it stands in. */
function changesByPlace(study: Study): ReadonlyMap<string, CourseChange> {
  return new Map(
    feet.flatMap((foot) =>
      tapedCourseOf(foot, study).flatMap(({ measure, changes }) =>
        changes.map((change) => [placeOf({ ...change.to, foot }, measure.name), change] as const),
      ),
    ),
  );
}
