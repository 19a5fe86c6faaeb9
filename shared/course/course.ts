import type { MeasureName } from '../measures/names.ts';
import { dateOfDay, dayNumber } from '../notation/dates.ts';
import { views, type View } from '../notation/landmarks.ts';
import { feet, type FootName } from '../notation/choices.ts';
import type { Quantity } from '../record/schema.ts';
import { isBeyondHand } from '../measures/hand-range.ts';
import type { Measure } from '../measures/registry.ts';
import { findMeasure, measuresIn } from '../measures/registry.ts';
import { animalOn } from '../trim/case-animal.ts';
import type { StudiedCut, StudiedFilm, Study } from '../trim/study.ts';
import { accusationOf, isLength } from './bones-of.ts';
import type { Change, Uncertain } from './change.ts';
import { changeOf, spreadOf } from './error-of-films.ts';
import { growOut, usualGrowOut, type GrowOut } from './grow-out.ts';
import { mannKendall } from './mann-kendall.ts';
import { beginsAnew } from './sinking-rule.ts';
import { theilSen, type TheilSen } from './theil-sen.ts';
import { valuesOfFilm } from './value-of-film.ts';
import { wedgeOfFilm } from './wedge-of-film.ts';

export interface DatedFilm extends StudiedFilm {
  readonly date: string;
  readonly day: number;
}

/** A measure on one film; photographs are left out, as they are wherever films are compared. */
export interface CoursePoint {
  readonly film: DatedFilm;
  /** `YYYY-MM-DD`, and days since 1970-01-01. */
  readonly date: string;
  readonly day: number;
  readonly value: number;
  /** One standard deviation: observed where there are repeat readings enough, else from the placings. */
  readonly sd: number;
}

/** From the newest film of an earlier day to this one. */
export interface CourseChange extends Change {
  readonly from: CoursePoint;
  readonly to: CoursePoint;
  /** A length, compared with a film whose scale is in doubt: it is never called clear. */
  readonly doubted: boolean;
  /**
   * Degrees of it that come from what the foot wears, of angles to the ground; null where nothing does. `unknown` where a film of
   * the shod foot does not show its bearing plane.
   */
  readonly byShoe: number | 'unknown' | null;
}

/** Per 28 days, in the measure's unit. */
export interface Trend {
  readonly n: number;
  readonly slope: number;
  readonly low: number;
  readonly high: number;
  /** Of the interval: 0.95, or less where there are only three or four films. */
  readonly level: number;
  /** Two-sided Mann-Kendall. */
  readonly p: number;
  /**
   * Whether there is anything that could have a trend: `clear` where the first film and the last differ clearly, `perhaps` where only
   * the line between them goes as far.
   */
  readonly certainty: 'none' | 'perhaps' | 'clear';
  /** The first film that it goes by, where that is not the first of all: the vet saw the animal after it. */
  readonly since: string | null;
  /** The same line by day. */
  readonly line: TheilSen;
}

export interface MeasureCourse {
  readonly measure: Measure;
  readonly points: readonly CoursePoint[];
  readonly changes: readonly CourseChange[];
  /** From the first film to the last; null where nothing lies between them. */
  readonly overall: CourseChange | null;
  /** Null for fewer than three days of films. */
  readonly trend: Trend | null;
  /** Of `grown-out` only, where there is a toe length. */
  readonly growOut: GrowOut | null;
}

export interface ViewCourse {
  readonly view: View;
  readonly films: readonly DatedFilm[];
  /** Those with a value on any film, in the order of the tables. */
  readonly measures: readonly MeasureCourse[];
}

export interface TrimMark {
  readonly cut: StudiedCut;
  readonly date: string;
  readonly day: number;
}

export interface FootCourse {
  readonly foot: FootName;
  readonly views: readonly ViewCourse[];
  readonly trims: readonly TrimMark[];
}

export const PERIOD = 28;

/** The course of every foot that has films. Pure. */
export function courseOf(study: Study): FootCourse[] {
  return feet.flatMap((foot) => {
    const filmed = views.flatMap((view) => {
      const films = study.series.of(foot, view).flatMap(dated);
      return films.length === 0 ? [] : [{ view, films, measures: measureCourses(view, films, study) }];
    });
    return filmed.length === 0 ? [] : [{ foot, views: filmed, trims: trimsOf(foot, study) }];
  });
}

function dated(film: StudiedFilm): DatedFilm[] {
  const { day } = film;
  return day === null ? [] : [{ ...film, day, date: dateOfDay(day) }];
}

function measureCourses(view: View, films: readonly DatedFilm[], study: Study): MeasureCourse[] {
  const taken = films.flatMap((film) => {
    const values = valuesOfFilm(film);
    return values ? [{ film, values }] : [];
  });
  const pointsOf = (name: MeasureName): CoursePoint[] =>
    taken.flatMap(({ film, values }) => {
      const value = values.get(name);
      return value
        ? [{ film, day: film.day, date: film.date, value: value.value, sd: spreadOf(value, study, film) }]
        : [];
    });
  const [first] = films;
  const anew = first && view === 'lateral' ? beginsAnew(first.film.foot, study) : null;
  return measuresIn(view).flatMap((measure) => {
    const points = pointsOf(measure.name);
    if (points.length === 0) return [];
    const sound = (all: readonly CoursePoint[]) =>
      isLength(measure) ? all.filter(({ film }) => accusationOf(film, study) === null) : all;
    const worn = wearingAlike(points, measure, study);
    const since = anew !== null && inCapsule.has(measure.name) ? worn.filter(({ day }) => day >= anew) : worn;
    const trend = trendOf(sound(since), measure, study, since.length < worn.length);
    const toe = measure.name === 'grown-out' ? sound(pointsOf('toe-length')).at(-1) : undefined;
    const out = toe ? growOutOf(sound(points), trend, toe, study) : null;
    return [
      {
        measure,
        points,
        changes: changesOf(measure, points, study),
        overall: overallOf(measure, points, study),
        trend,
        growOut: out,
      },
    ];
  });
}

/** What begins anew once the vet has seen a bone that sank. */
const inCapsule: ReadonlySet<MeasureName> = new Set([
  'founder-distance',
  'coronet-extensor',
  'founder-distance.level',
  'coronet-extensor.level',
]);

/** By the foot's own films where there are enough of them, else by its tapes, else by what is usual in grown animals. */
function growOutOf(
  points: readonly CoursePoint[],
  trend: Trend | null,
  toe: CoursePoint,
  study: Study,
): GrowOut | null {
  const newest = points.at(-1);
  if (!newest) return null;
  if (trend) return growOut(trend.line, toe.value, 'films');
  const tape = tapedLine(newest.film.film.foot, study);
  if (tape) return growOut(tape, toe.value, 'tape');
  return animalOn(study.animal, newest.day).young ? null : usualGrowOut(newest.value, newest.day, toe.value);
}

/** The line through what the tape says of the new wall; null for fewer than three visits. */
function tapedLine(foot: FootName, { record }: Study): TheilSen | null {
  const taped = record.visits.flatMap(({ is: { date, tapes } }) => {
    const day = date === null ? null : dayNumber(date);
    const found = tapes.filter((tape) => tape.foot === foot).flatMap(({ values }) => values.find(isGrownOut) ?? [])[0];
    return day === null || !found ? [] : [{ day, value: found.quantity.base }];
  });
  const days = taped.map(({ day }) => day);
  return new Set(days).size < 3
    ? null
    : theilSen(
        days,
        taped.map(({ value }) => value),
      );
}

function isGrownOut({ measure, quantity }: { readonly measure: string; readonly quantity: Quantity }): boolean {
  const known = findMeasure(measure);
  return known?.name === 'grown-out' && !isBeyondHand(known, quantity);
}

function changesOf(measure: Measure, points: readonly CoursePoint[], study: Study): CourseChange[] {
  const changes: CourseChange[] = [];
  let from: CoursePoint | undefined;
  points.forEach((to, index) => {
    const before = points[index - 1];
    if (before && before.day < to.day) from = before;
    if (from) changes.push(changed(from, to, measure, study));
  });
  return changes;
}

function overallOf(measure: Measure, points: readonly CoursePoint[], study: Study): CourseChange | null {
  const [from] = points;
  const to = points.at(-1);
  if (!from || !to || new Set(points.map(({ day }) => day)).size < 3) return null;
  return changed(from, to, measure, study);
}

function changed(from: CoursePoint, to: CoursePoint, measure: Measure, study: Study): CourseChange {
  const doubted = isLength(measure) && [from, to].some(({ film }) => accusationOf(film, study) !== null);
  const change = changeOf(from, to, measure, study);
  return { from, to, ...change, clear: change.clear && !doubted, doubted, byShoe: wedgeSince(from, to, measure) };
}

/** Less of a wedge is not said. */
const leastWedge = 0.05;

function wedgeSince(from: CoursePoint, to: CoursePoint, { plane, view }: Measure): CourseChange['byShoe'] {
  if (plane !== 'ground' || view !== 'lateral') return null;
  const [was, is] = [wedgeOfFilm(from.film), wedgeOfFilm(to.film)];
  if (was === null || is === null) return 'unknown';
  return Math.abs(is - was) < leastWedge ? null : is - was;
}

/** The points on which the foot wears as much of a wedge as on the newest: another shoe is no trend. */
function wearingAlike(points: readonly CoursePoint[], measure: Measure, study: Study): readonly CoursePoint[] {
  const newest = points.at(-1);
  if (measure.plane !== 'ground' || measure.view !== 'lateral' || !newest) return points;
  const wedge = wedgeOfFilm(newest.film);
  const alike = points.filter(({ film }) => {
    const other = wedgeOfFilm(film);
    return wedge === null || other === null ? wedge === other : Math.abs(other - wedge) <= study.change.angle;
  });
  return alike.length === points.length ? points : alike;
}

function trendOf(points: readonly CoursePoint[], measure: Measure, study: Study, isAnew: boolean): Trend | null {
  const [first] = points;
  const last = points.at(-1);
  const days = points.map(({ day }) => day);
  const values = points.map(({ value }) => value);
  const line = theilSen(days, values);
  const order = mannKendall(days, values);
  // Never a line through fewer than three visits, however many films one of them has.
  if (!line || !order || !first || !last || new Set(days).size < 3) return null;
  const { n, slope, low, high, level } = line;
  const along = { value: first.value + slope * (last.day - first.day), sd: last.sd };
  const isClear = (now: Uncertain): boolean => changeOf(first, now, measure, study).clear;
  return {
    n,
    slope: slope * PERIOD,
    low: low * PERIOD,
    high: high * PERIOD,
    level,
    p: order.p,
    certainty: isClear(last) ? 'clear' : isClear(along) ? 'perhaps' : 'none',
    since: isAnew ? first.date : null,
    line,
  };
}

function trimsOf(foot: FootName, { cuts }: Study): TrimMark[] {
  return cuts
    .flatMap((cut) => {
      const { date } = cut.visit.is;
      const day = date === null ? null : dayNumber(date);
      return cut.cut.kind === 'trim' && cut.cut.foot === foot && date !== null && day !== null
        ? [{ cut, date, day }]
        : [];
    })
    .sort((a, b) => a.day - b.day);
}
