import { shownDate } from '../language/dates.ts';
import { spoken } from '../language/rows.ts';
import { t } from '../language/words.ts';
import type { FootPanel, FourFeetInput } from '../drawing/course/four-feet.ts';
import type { StaveInput, StaveRow, StaveSeries, StaveStop, StaveTrim } from '../drawing/course/stave-input.ts';
import { SURELY } from '../course/change.ts';
import { PERIOD } from '../course/course.ts';
import { courseSources, type CourseSource } from '../course/course-sources.ts';
import { LEVEL } from '../course/theil-sen.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { feet } from '../notation/choices.ts';
import { firstRows } from './first-measures.ts';
import { grouped } from './grouped.ts';
import { sayPartOfMonth } from '../findings/wording/say-day.ts';
import type { CourseRow, CourseSheet, FootCourseSheet } from './course-sheet.ts';

/** What the signs of a stave mean, in words. */
const MARKS = spoken({
  film: 'Each upright stroke is a film, as tall as its error (19 times in 20).',
  photo: 'A square on its corner is a photo, the stroke through it its error.',
  hand: 'A ring is a value by hand, the stroke through it its error.',
} satisfies Record<CourseSource, string>);

/** The key of a stave with these rows: only what is on it, the films first. */
export function staveKey(rows: readonly Pick<CourseRow, 'source'>[]): string {
  const sources = courseSources.filter((source) => rows.some((row) => row.source === source));
  const apart = sources.length > 1 ? [t('What was taken in different ways is never joined.')] : [];
  const lines = t(
    'A solid line with an arrow: a clear change; a dotted one: within the error. Hatched: the usual range. A notch in the line of time: a trim. The fading strokes: where the trend would go, sparse where the values are too few to be sure.',
  );
  return [...sources.map((source) => MARKS[source]), ...apart, lines].join(' ');
}

/** The rows to show: the usual ones where `chosen` is null, else the chosen in the order of the tables. */
export function chosenRows({ rows }: FootCourseSheet, chosen: readonly string[] | null): CourseRow[] {
  return chosen === null ? firstRows(rows) : rows.filter(({ measure }) => chosen.includes(measure));
}

/** What a course takes, for whoever has none yet. */
export const courseBegins = (): string =>
  t('A course begins with the second film of a foot, or the second day on which something of it is taken by hand.');

/** The days on which the foot was filmed, photographed or measured by hand. */
export function stopsOf(foot: Pick<FootCourseSheet, 'films' | 'others'>): StaveStop[] {
  const all = takenOn(foot);
  return all.filter(({ day }, index) => all[index - 1]?.day !== day).map(({ day, date }) => ({ day, date }));
}

/** The foot without the days of photos and tapes on which none of these rows has a value: there would be nothing to read there. */
export function withDaysOf(foot: FootCourseSheet, rows: readonly CourseRow[]): FootCourseSheet {
  const days = new Set(rows.flatMap(({ points }) => points.map(({ day }) => day)));
  const others = foot.others.filter(({ day }) => days.has(day));
  return others.length === foot.others.length ? foot : { ...foot, others };
}

/** Films, photos and tapes of a foot in the order of their days; of one day the films first. */
export function takenOn({ films, others }: Pick<FootCourseSheet, 'films' | 'others'>): readonly {
  readonly day: number;
  readonly date: string;
  readonly line: number;
}[] {
  return others.length === 0 ? films : [...films, ...others].sort((a, b) => a.day - b.day);
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
    rows: staveRows(rows),
    title: t('Course of {0}', heading),
    description: t(
      '{0} days with {1} from {2} to {3}: {4}',
      stops.length,
      foot.others.length > 0 ? t('films, photos or values by hand') : t('films'),
      shownDate(stops[0]?.date ?? ''),
      shownDate(stops.at(-1)?.date ?? ''),
      [...new Set(rows.map(({ words }) => words))].join(', '),
    ),
    ...(alone && { alone: { heading, key: staveKey(rows) } }),
  };
}

function trimsOf({ trims }: FootCourseSheet): StaveTrim[] {
  return trims.map(({ day, date, words }) => ({ day, words: t('Trim of {0}: {1}', shownDate(date), words) }));
}

/** A row a measure; what was taken in other ways stands on the same scale. */
function staveRows(rows: readonly CourseRow[]): StaveRow[] {
  return [...grouped(rows, ({ measure }) => measure).values()].flatMap((those) => staveRow(those) ?? []);
}

function staveRow([first, ...others]: readonly CourseRow[]): StaveRow | null {
  if (!first) return null;
  const { measure, words, unit, usual, usualText } = first;
  const growOut = [first, ...others].find((row) => row.growOut)?.growOut;
  return {
    ...staveSeries(first),
    measure,
    words,
    unit,
    usual,
    usualText,
    note: growOut?.date ? t('at the ground about {0}', sayPartOfMonth(growOut.date)) : null,
    beside: others.map(staveSeries),
  };
}

function staveSeries({ source, sourceWords, points, changes, trend }: CourseRow): StaveSeries {
  return {
    source,
    sourceWords,
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
    const own = sheet?.rows.filter((one) => one.measure === measure) ?? [];
    return {
      foot,
      words: sentence(footWords[foot]),
      row: staveRow(own),
      trims: sheet ? trimsOf(sheet) : [],
    };
  });
  const withRow = panels.filter(({ row }) => row !== null);
  if (withRow.length < 2) return null;
  const words = withRow[0]?.row?.words ?? '';
  return {
    width,
    panels,
    title: t('{0} of each foot', words),
    description: withRow.map((panel) => `${panel.words} ${panel.row?.points.at(-1)?.text ?? ''}`).join(', '),
  };
}
