import type { FootPanel, FourFeetInput } from '../drawing/course/four-feet.ts';
import type { StaveInput, StaveRow, StaveStop, StaveTrim } from '../drawing/course/stave-input.ts';
import { SURELY } from '../course/change.ts';
import { PERIOD } from '../course/course.ts';
import { LEVEL } from '../course/theil-sen.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { feet } from '../notation/choices.ts';
import { firstRows } from './first-measures.ts';
import { sayPartOfMonth } from '../findings/wording/say-day.ts';
import type { CourseRow, CourseSheet, FootCourseSheet } from './course-sheet.ts';

/** What the signs of a stave mean, in words. */
export const STAVE_KEY =
  'Each upright stroke is a film, as tall as its error (19 times in 20). A solid line with an arrow: a clear change; a dotted one: within the error. ' +
  'Hatched: the usual range. A notch in the line of time: a trim. The fading strokes: where the trend would go, sparse where the films are too few to be sure.';

/** The rows to show: the usual ones where `chosen` is null, else the chosen in the order of the tables. */
export function chosenRows({ rows }: FootCourseSheet, chosen: readonly string[] | null): CourseRow[] {
  return chosen === null ? firstRows(rows) : rows.filter(({ measure }) => chosen.includes(measure));
}

/** The days on which the foot has films. */
export function stopsOf({ films }: Pick<FootCourseSheet, 'films'>): StaveStop[] {
  return films.filter(({ day }, index) => films[index - 1]?.day !== day).map(({ day, date }) => ({ day, date }));
}

export function staveOf(
  foot: FootCourseSheet,
  rows: readonly CourseRow[],
  { width, caseName, alone }: { readonly width: number; readonly caseName: string; readonly alone: boolean },
): StaveInput {
  const stops = stopsOf(foot);
  const heading = `${caseName}, ${footWords[foot.foot]}`;
  return {
    width,
    stops,
    trims: trimsOf(foot),
    rows: rows.map(staveRow),
    title: `Course of ${heading}`,
    description: `${stops.length} days with films from ${stops[0]?.date ?? ''} to ${stops.at(-1)?.date ?? ''}: ${rows.map(({ words }) => words).join(', ')}`,
    ...(alone && { alone: { heading, key: STAVE_KEY } }),
  };
}

function trimsOf({ trims }: FootCourseSheet): StaveTrim[] {
  return trims.map(({ day, date, words }) => ({ day, words: `Trim of ${date}: ${words}` }));
}

function staveRow({ measure, words, unit, usual, usualText, points, changes, trend, growOut }: CourseRow): StaveRow {
  return {
    measure,
    words,
    unit,
    usual,
    usualText,
    note: growOut?.date ? `at the ground about ${sayPartOfMonth(growOut.date)}` : null,
    points: points.map(({ day, value, sd, text, state }) => ({ day, value, error: SURELY * sd, text, state })),
    changes: changes.map(({ from, to, clear, text, shoe }) => ({ from, to, clear, text, shoe })),
    trend: trend && {
      slope: trend.slope / PERIOD,
      low: trend.low / PERIOD,
      high: trend.high / PERIOD,
      middle: trend.middle,
      carried: trend.level >= LEVEL,
      words: trend.text,
    },
  };
}

/** One measure on all feet; null where fewer than two feet have it. */
export function fourFeetOf({ feet: those }: CourseSheet, measure: string, width: number): FourFeetInput | null {
  const panels = feet.map((foot): FootPanel => {
    const sheet = those.find((one) => one.foot === foot);
    const row = sheet?.rows.find((one) => one.measure === measure);
    return {
      foot,
      words: sentence(footWords[foot]),
      row: row ? staveRow(row) : null,
      trims: sheet ? trimsOf(sheet) : [],
    };
  });
  const withRow = panels.filter(({ row }) => row !== null);
  if (withRow.length < 2) return null;
  const words = withRow[0]?.row?.words ?? '';
  return {
    width,
    panels,
    title: `${words} of each foot`,
    description: withRow.map((panel) => `${panel.words} ${panel.row?.points.at(-1)?.text ?? ''}`).join(', '),
  };
}
