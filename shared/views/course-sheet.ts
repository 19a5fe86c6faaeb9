import { spoken } from '../language/rows.ts';
import type { CourseSource } from '../course/course-sources.ts';
import { counted, t } from '../language/words.ts';
import type { GrowthSource } from '../course/growth-sources.ts';
import {
  courseOf,
  type CourseChange,
  type CoursePoint,
  type FootCourse,
  type MeasureCourse,
  type Trend,
} from '../course/course.ts';
import { accusationOf, bonesOf } from '../course/bones-of.ts';
import type { Inspection } from '../findings/inspect.ts';
import { leastSpread } from '../trim/bone-scale.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';
import { linesFor, stateOf, usualOf } from '../findings/limits/limits.ts';
import type { RangeState } from '../findings/limits/range-state.ts';
import { sayDoubt } from '../findings/wording/say-bones.ts';
import { sayDay } from '../findings/wording/say-day.ts';
import { shodWords } from '../findings/wording/shod-words.ts';
import { footWords, list, saySigned, sayWithSpread, sentence, wordsFor } from '../findings/wording/wording.ts';
import type { HandMeasure } from '../measures/by-hand.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import type { Measure } from '../measures/registry.ts';
import type { View } from '../notation/landmarks.ts';
import type { FootName } from '../notation/choices.ts';
import type { Placed, Visit } from '../record/schema.ts';
import { familyHeading } from './about-measures.ts';
import { grouped } from './grouped.ts';
import { sayGrowOut, sayTrend } from './course-wording.ts';
import { scaleOrigin, type ScaleOrigin } from './scale-origin.ts';
import { cutWords } from './film-sheet.ts';
import { sinkingSheet, type SinkingSheet } from './sinking-sheet.ts';
import { usualText } from './yardsticks.ts';

/** The course of each foot as a person looks at it. Plain data; words are ready to be shown, numbers are not rounded. */
export interface CourseSheet {
  readonly feet: readonly FootCourseSheet[];
}

export interface FootCourseSheet {
  readonly foot: FootName;
  /** `Left fore`. */
  readonly words: string;
  /** Every film of the foot in the order of their days, whatever its view. */
  readonly films: readonly FilmStop[];
  /** Its photographs and tapes, in the order of their days. */
  readonly others: readonly OtherStop[];
  readonly trims: readonly TrimStop[];
  /** Null where there are fewer than two days of lateral films. */
  readonly sinking: SinkingSheet | null;
  /** Whose scale is in doubt, and that their lengths cannot be compared; empty where none is. */
  readonly doubt: string;
  /** What the scales rest on that are not the films’ own; empty where all are. */
  readonly scales: string;
  readonly rows: readonly CourseRow[];
}

export interface FilmStop {
  readonly date: string;
  /** Days since 1970-01-01. */
  readonly day: number;
  /** From 0. */
  readonly line: number;
  readonly view: View;
  /** What the scale rests on; null where there is none. */
  readonly scaleFrom: ScaleOrigin['from'] | null;
  /** Whether the bones speak against its scale. */
  readonly doubted: boolean;
}

export interface OtherStop {
  readonly source: 'photo' | 'hand';
  readonly date: string;
  readonly day: number;
  readonly line: number;
}

export interface TrimStop {
  readonly date: string;
  readonly day: number;
  readonly line: number;
  /** `heel down 5 mm`. */
  readonly words: string;
}

export interface CourseRow {
  readonly measure: string;
  /** `Palmar angle`. */
  readonly words: string;
  readonly unit: MeasureUnit;
  /** What it was taken from. A measure has a row for each source: they are never mixed. */
  readonly source: CourseSource;
  /** `by hand`, `on photos`; nothing of films. */
  readonly sourceWords: string;
  /** Null by hand. */
  readonly view: View | null;
  readonly family: string;
  readonly usual: { readonly low: number | null; readonly high: number | null } | null;
  readonly usualText: string;
  readonly points: readonly CourseStop[];
  /** From the newest film of an earlier day. */
  readonly changes: readonly ChangeSheet[];
  /** From the first film to the last, where there are others between them. */
  readonly overall: ChangeSheet | null;
  readonly trend: TrendSheet | null;
  /** When new wall reaches the ground; of `grown-out` only. */
  readonly growOut: GrowOutSheet | null;
}

export interface CourseStop {
  readonly date: string;
  readonly day: number;
  readonly line: number;
  readonly value: number;
  readonly sd: number;
  readonly text: string;
  readonly state: RangeState;
}

export interface ChangeSheet {
  /** Places among the points. */
  readonly from: number;
  readonly to: number;
  readonly difference: number;
  readonly sd: number;
  readonly clear: boolean;
  /** A length, compared with a film whose scale is in doubt. */
  readonly doubted: boolean;
  /** `−2.1°`. */
  readonly text: string;
  /** What of it comes from another shoe: `+3.0° of it by what it wears: shoe 10 mm, wedge 3 deg`; else empty. */
  readonly shoe: string;
  /** The same as a number, in degrees; `unknown` where a shoe without a bearing plane may be in it, null where no shoe is. */
  readonly byShoe: number | 'unknown' | null;
}

/** In the measure's unit per 28 days. */
export interface TrendSheet {
  readonly n: number;
  readonly slope: number;
  readonly low: number;
  readonly high: number;
  readonly level: number;
  readonly p: number;
  /** The line goes through it. */
  readonly middle: { readonly day: number; readonly value: number };
  /** `Flatter by 0.4° to 1.9° each four weeks`. */
  readonly text: string;
}

export interface GrowOutSheet {
  readonly by: GrowthSource;
  readonly toeLength: number;
  readonly date: string | null;
  readonly early: string | null;
  readonly late: string | null;
  readonly text: string;
}

export function courseSheet({ study }: Pick<Inspection, 'study'>): CourseSheet {
  return { feet: courseOf(study).map((course) => footSheet(course, study)) };
}

const lineOf = (visit: Placed<Visit>, line: number): number => visit.line + line;

/** What is said beside a measure of where its values come from. */
export const sourceWords: Readonly<Record<CourseSource, string>> = spoken({
  film: '',
  photo: 'on photos',
  hand: 'by hand',
});

function footSheet(course: FootCourse, study: Study): FootCourseSheet {
  const { foot, views, photos, taped, trims } = course;
  const films = views.flatMap(({ view, films: those }) =>
    those.map((studied): FilmStop => {
      const { film, visit, day, date } = studied;
      return { date, day, line: lineOf(visit, film.line), view, ...scaleOf(studied, study) };
    }),
  );
  return {
    foot,
    words: sentence(footWords[foot]),
    films: films.sort((a, b) => a.day - b.day),
    others: otherStops(course),
    trims: trims.map(({ cut, date, day }) => ({
      date,
      day,
      line: lineOf(cut.visit, cut.cut.line),
      words: cutWords(cut),
    })),
    sinking: sinkingSheet(foot, study),
    doubt: doubtOf(foot, study),
    scales: scalesOf(films),
    rows: sideBySide([
      ...views.flatMap(({ measures }) => measures.map((one) => courseRow(one, 'film', foot, study))),
      ...photos.flatMap(({ measures }) => measures.map((one) => courseRow(one, 'photo', foot, study))),
      ...taped.map((one) => tapedRow(one, foot)),
    ]),
  };
}

/** The series of one measure next to each other, the measures in the order in which they come first. */
function sideBySide(rows: readonly CourseRow[]): CourseRow[] {
  return [...grouped(rows, ({ measure }) => measure).values()].flat();
}

function otherStops({ photos, tapes }: FootCourse): OtherStop[] {
  const ofPhotos = photos.flatMap(({ films }) =>
    films.map(({ film, visit, day, date }): OtherStop => ({
      source: 'photo',
      date,
      day,
      line: lineOf(visit, film.line),
    })),
  );
  const ofTapes = tapes.flatMap(({ visit, line, day, date }): OtherStop[] =>
    day === null || date === null ? [] : [{ source: 'hand', date, day, line: lineOf(visit, line) }],
  );
  return [...ofPhotos, ...ofTapes].sort((a, b) => a.day - b.day);
}

function doubtOf(foot: FootName, study: Study): string {
  const accused = bonesOf(foot, study).filter((one) => one.accused);
  if (accused.length === 0) return '';
  const doubt = sentence(sayDoubt(accused));
  return counted(
    accused.length,
    '{1}; no length of it can be compared.',
    '{1}; their lengths cannot be compared.',
    doubt,
  );
}

export function scaleOf(film: StudiedFilm, study: Study): Pick<FilmStop, 'scaleFrom' | 'doubted'> {
  const hasScale = film.readings.some(({ taking }) => taking.scale !== null);
  return {
    scaleFrom: hasScale ? (scaleOrigin(film)?.from ?? null) : null,
    doubted: accusationOf(film, study) !== null,
  };
}

function scalesOf(films: readonly FilmStop[]): string {
  const sentences = (['bone', 'bone of the other foot'] as const).flatMap((from) => {
    const days = [...new Set(films.filter(({ scaleFrom }) => scaleFrom === from).map(({ day }) => sayDay(day)))];
    const known = (100 * leastSpread[from === 'bone' ? 'foot' : 'pair']).toFixed(0);
    if (days.length === 0) return [];
    return from === 'bone'
      ? counted(
          days.length,
          'Scale from the bone on the film of {1}: its lengths are known to {2} % at best.',
          'Scale from the bone on the films of {1}: their lengths are known to {2} % at best.',
          list(days),
          known,
        )
      : counted(
          days.length,
          'Scale from the bone of the other foot on the film of {1}: its lengths are known to {2} % at best.',
          'Scale from the bone of the other foot on the films of {1}: their lengths are known to {2} % at best.',
          list(days),
          known,
        );
  });
  return sentences.join(' ');
}

function courseRow(course: MeasureCourse, source: 'film' | 'photo', foot: FootName, study: Study): CourseRow {
  const { measure, points } = course;
  const { name, unit, view } = measure;
  const lines = linesFor(name, foot, study, points.at(-1)?.day);
  const usual = lines.lines.length > 0 ? usualOf(lines) : null;
  return {
    ...anyRow(course, sentence(wordsFor(measure, foot))),
    source,
    sourceWords: sourceWords[source],
    view,
    usual,
    usualText: usual ? usualText(usual, unit) : '',
    points: points.map((point) => {
      const known = { measure, value: point.value, unit, sd: point.sd };
      // Of when the animal was not grown, or heavy, there are other lines.
      return { ...stopOf(point, unit), state: stateOf(known, linesFor(name, foot, study, point.day)) };
    }),
  };
}

/** The published ranges are of films: what a hand took is held against none. */
function tapedRow(course: FootCourse['taped'][number], foot: FootName): CourseRow {
  const { measure, points } = course;
  return {
    ...anyRow(course, sentence('view' in measure ? wordsFor(measure, foot) : measure.words)),
    source: 'hand',
    sourceWords: sourceWords.hand,
    view: null,
    usual: null,
    usualText: '',
    points: points.map((point) => ({ ...stopOf(point, measure.unit), state: 'none' })),
  };
}

function stopOf({ visit, line, date, day, value, sd }: CoursePoint, unit: MeasureUnit): Omit<CourseStop, 'state'> {
  return { date, day, line: lineOf(visit, line), value, sd, text: sayWithSpread({ value, unit, sd }) };
}

function anyRow(
  { measure, points, changes, overall, trend, growOut }: FootCourse['taped'][number],
  words: string,
): Pick<CourseRow, 'measure' | 'words' | 'unit' | 'family' | 'changes' | 'overall' | 'trend' | 'growOut'> {
  const { name, unit } = measure;
  const places = new Map(points.map((point, place) => [point, place]));
  return {
    measure: name,
    words,
    unit,
    family: familyHeading(name),
    changes: changes.map((change) => changeSheet(change, places, unit)),
    overall: overall && changeSheet(overall, places, unit),
    trend: trend && trendSheet(trend, measure),
    growOut: growOut && { ...growOut, text: sayGrowOut(growOut, trend) },
  };
}

function changeSheet(
  { from, to, difference, sd, clear, doubted, byShoe }: CourseChange,
  places: ReadonlyMap<CoursePoint, number>,
  unit: MeasureUnit,
): ChangeSheet {
  const text = saySigned(difference, unit);
  const shoe =
    byShoe === null || !to.film
      ? ''
      : byShoe === 'unknown'
        ? t('a shoe without a bearing plane may be in it')
        : t('{0} of it by {1}', saySigned(byShoe, unit), shoeOf(to.film));
  return { from: places.get(from) ?? -1, to: places.get(to) ?? -1, difference, sd, clear, doubted, text, shoe, byShoe };
}

function shoeOf({ worn, readings }: StudiedFilm): string {
  if (worn) return t('what the foot wears: {0}', shodWords(worn));
  return readings.some(({ input }) => input.bearing) ? t('what the foot wears') : t('the shoe that is off');
}

function trendSheet(trend: Trend, measure: Measure | HandMeasure): TrendSheet {
  const { n, slope, low, high, level, p, line } = trend;
  return {
    n,
    slope,
    low,
    high,
    level,
    p,
    middle: { day: line.middle.time, value: line.middle.value },
    text: sentence(sayTrend(trend, measure)),
  };
}
