import type { MeasureName } from '../measures/names.ts';
import type { HandMeasure } from '../measures/by-hand.ts';
import type { Value } from '../measures/take.ts';
import { dateOfDay, dayNumber } from '../notation/dates.ts';
import { views, type View } from '../notation/landmarks.ts';
import { feet, type FootName } from '../notation/choices.ts';
import type { Placed, Visit } from '../record/schema.ts';
import type { Measure } from '../measures/registry.ts';
import { measuresIn } from '../measures/registry.ts';
import { animalOn } from '../trim/case-animal.ts';
import { floorOf } from '../trim/change-settings.ts';
import type { StudiedCut, StudiedFilm, Study } from '../trim/study.ts';
import { accusationOf, isLength } from './bones-of.ts';
import { changeBetween, type Change, type Uncertain } from './change.ts';
import type { CourseSource } from './course-sources.ts';
import { changeOf, sharedError, spreadOf } from './error-of-films.ts';
import { growOut, usualGrowOut, type GrowOut } from './grow-out.ts';
import { mannKendall } from './mann-kendall.ts';
import { beginsAnew } from './sinking-rule.ts';
import { handMeasuresOf, tapesOfFoot, type TapeTaken } from './taped-series.ts';
import { theilSen, type TheilSen } from './theil-sen.ts';
import { valuesOfFilm } from './value-of-film.ts';
import { leastWedge, wedgeOfFilm } from './wedge-of-film.ts';

export interface DatedFilm extends StudiedFilm {
  readonly date: string;
  readonly day: number;
}

/** A measure on one film or photo, or as a hand took it. Only points of one source are ever compared. */
export interface CoursePoint {
  /** The film or photo; null for a value by hand. */
  readonly film: DatedFilm | null;
  readonly visit: Placed<Visit>;
  /** Where it is written, from the first line of its visit. */
  readonly line: number;
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
  /** What it goes by: never a mixture. */
  readonly source: CourseSource;
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

export interface MeasureCourse<M extends Measure | HandMeasure = Measure> {
  readonly measure: M;
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
  /** The films. */
  readonly views: readonly ViewCourse[];
  /** The photographs: series of their own, as they are taken in another way. */
  readonly photos: readonly ViewCourse[];
  /** What a hand took, tape by tape in the order of their days, and what of it is a series. */
  readonly tapes: readonly TapeTaken[];
  readonly taped: readonly MeasureCourse<Measure | HandMeasure>[];
  readonly trims: readonly TrimMark[];
}

export const PERIOD = 28;

/** The course of every foot that has films, photographs or values by hand. Pure. */
export function courseOf(study: Study): FootCourse[] {
  return feet.flatMap((foot) => {
    const ofPictures = (source: 'film' | 'photo'): ViewCourse[] =>
      views.flatMap((view) => {
        const all = source === 'film' ? study.series.of(foot, view) : photosOf(foot, view, study);
        const films = all.flatMap(dated);
        return films.length === 0 ? [] : [{ view, films, measures: measureCourses(view, films, source, study) }];
      });
    const filmed = ofPictures('film');
    const photos = ofPictures('photo');
    const tapes = tapesOfFoot(foot, study.record.visits);
    if (filmed.length + photos.length + tapes.length === 0) return [];
    const taped = tapedCourses(tapes, filmed, study);
    return [{ foot, views: filmed, photos, tapes, taped, trims: trimsOf(foot, study) }];
  });
}

function photosOf(foot: FootName, view: View, { films }: Study): StudiedFilm[] {
  return films
    .filter(({ film, day }) => film.kind === 'photo' && film.foot === foot && film.view === view && day !== null)
    .sort((a, b) => (a.day ?? 0) - (b.day ?? 0));
}

function dated(film: StudiedFilm): DatedFilm[] {
  const { day } = film;
  return day === null ? [] : [{ ...film, day, date: dateOfDay(day) }];
}

/** How the points of one source are compared with each other. */
interface Comparing {
  readonly source: CourseSource;
  change(was: Uncertain, now: Uncertain, shared: number): Change;
  /** The covariance of two points, one film's placings having been followed from the other's. */
  shared(from: CoursePoint, to: CoursePoint): number;
  /** Whether a point counts where lengths are compared. */
  isSound(point: CoursePoint): boolean;
  /** What another shoe makes of a change. */
  byShoe(from: CoursePoint, to: CoursePoint): CourseChange['byShoe'];
}

function measureCourses(
  view: View,
  films: readonly DatedFilm[],
  source: 'film' | 'photo',
  study: Study,
): MeasureCourse[] {
  const taken = films.flatMap((film) => {
    const values = valuesOfFilm(film);
    return values ? [{ film, values }] : [];
  });
  // What repeated films tell of their error says nothing of a photograph's.
  const sdOf = (value: Value, film: DatedFilm): number => (source === 'film' ? spreadOf(value, study, film) : value.sd);
  const pointsOf = (name: MeasureName): CoursePoint[] =>
    taken.flatMap(({ film, values }) => {
      const value = values.get(name);
      return value ? [pointOf(film, value.value, sdOf(value, film))] : [];
    });
  const [first] = films;
  const anew = first && source === 'film' && view === 'lateral' ? beginsAnew(first.film.foot, study) : null;
  return measuresIn(view).flatMap((measure) => {
    const points = pointsOf(measure.name);
    if (points.length === 0) return [];
    const comparing: Comparing = {
      source,
      change:
        source === 'film'
          ? (was, now, shared) => changeOf(was, now, measure, study, shared)
          : (was, now) => changeBetween(was, now, floorOf(measure, study.change)),
      shared: (from, to) =>
        source === 'film' && from.film && to.film ? sharedError(measure, [from.film, to.film], study) : 0,
      isSound: ({ film }) => source === 'photo' || !isLength(measure) || !film || accusationOf(film, study) === null,
      byShoe: (from, to) => wedgeSince(from, to, measure),
    };
    const sound = (all: readonly CoursePoint[]) => all.filter((point) => comparing.isSound(point));
    const worn = wearingAlike(points, measure, study);
    const since = anew !== null && inCapsule.has(measure.name) ? worn.filter(({ day }) => day >= anew) : worn;
    const trend = trendOf(sound(since), comparing, since.length < worn.length);
    const toe = source === 'film' && measure.name === 'grown-out' ? sound(pointsOf('toe-length')).at(-1) : undefined;
    const out = toe ? growOutOf(sound(points), trend, toe, study) : null;
    return [{ measure, ...compared(points, comparing), trend, growOut: out }];
  });
}

function pointOf(film: DatedFilm, value: number, sd: number): CoursePoint {
  return { film, visit: film.visit, line: film.film.line, day: film.day, date: film.date, value, sd };
}

function compared(points: readonly CoursePoint[], comparing: Comparing) {
  return { points, changes: changesOf(points, comparing), overall: overallOf(points, comparing) };
}

/** A hand has no error from film to film: its own spread is all that a change has to pass. */
const byHand: Comparing = {
  source: 'hand',
  change: (was, now) => changeBetween(was, now, 0),
  shared: () => 0,
  isSound: () => true,
  byShoe: () => null,
};

/** What a hand took of one foot over its visits, whatever its films say. */
export function tapedCourseOf(foot: FootName, study: Study): FootCourse['taped'] {
  return tapedCourses(tapesOfFoot(foot, study.record.visits), [], study);
}

function tapedCourses(
  tapes: readonly TapeTaken[],
  filmed: readonly ViewCourse[],
  study: Study,
): MeasureCourse<Measure | HandMeasure>[] {
  const series = handMeasuresOf(tapes);
  const toe = series.find(({ measure }) => measure.name === 'toe-length')?.points.at(-1);
  const isOnFilm = filmed.some(({ measures }) => measures.some(({ growOut: told }) => told !== null));
  return series.map(({ measure, points }) => {
    const trend = trendOf(points, byHand, false);
    const newest = points.at(-1);
    const out =
      measure.name === 'grown-out' && toe && newest && !isOnFilm
        ? trend
          ? growOut(trend.line, toe.value, 'tape')
          : usualFrom(newest, toe.value, study)
        : null;
    return { measure, ...compared(points, byHand), trend, growOut: out };
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
  if (!newest?.film) return null;
  if (trend) return growOut(trend.line, toe.value, 'films');
  const tape = tapedLine(newest.film.film.foot, study);
  return tape ? growOut(tape, toe.value, 'tape') : usualFrom(newest, toe.value, study);
}

function usualFrom({ value, day }: CoursePoint, toeLength: number, { animal }: Study): GrowOut | null {
  return animalOn(animal, day).young ? null : usualGrowOut(value, day, toeLength);
}

/** The line through what the tape says of the new wall; null for fewer than three visits. */
function tapedLine(foot: FootName, { record }: Study): TheilSen | null {
  const series = handMeasuresOf(tapesOfFoot(foot, record.visits));
  const points = series.find(({ measure }) => measure.name === 'grown-out')?.points ?? [];
  const days = points.map(({ day }) => day);
  return new Set(days).size < 3
    ? null
    : theilSen(
        days,
        points.map(({ value }) => value),
      );
}

function changesOf(points: readonly CoursePoint[], comparing: Comparing): CourseChange[] {
  const changes: CourseChange[] = [];
  let from: CoursePoint | undefined;
  points.forEach((to, index) => {
    const before = points[index - 1];
    if (before && before.day < to.day) from = before;
    if (from) changes.push(changed(from, to, comparing));
  });
  return changes;
}

function overallOf(points: readonly CoursePoint[], comparing: Comparing): CourseChange | null {
  const [from] = points;
  const to = points.at(-1);
  if (!from || !to || new Set(points.map(({ day }) => day)).size < 3) return null;
  return changed(from, to, comparing);
}

function changed(from: CoursePoint, to: CoursePoint, comparing: Comparing): CourseChange {
  const doubted = ![from, to].every((point) => comparing.isSound(point));
  const change = comparing.change(from, to, comparing.shared(from, to));
  return { from, to, ...change, clear: change.clear && !doubted, doubted, byShoe: comparing.byShoe(from, to) };
}

function wedgeSince(from: CoursePoint, to: CoursePoint, { plane, view }: Measure): CourseChange['byShoe'] {
  if (plane !== 'ground' || view !== 'lateral') return null;
  if (!from.film || !to.film) return null;
  const [was, is] = [wedgeOfFilm(from.film), wedgeOfFilm(to.film)];
  if (was === null || is === null) return 'unknown';
  return Math.abs(is - was) < leastWedge ? null : is - was;
}

/** The points on which the foot wears as much of a wedge as on the newest: another shoe is no trend. */
function wearingAlike(points: readonly CoursePoint[], measure: Measure, study: Study): readonly CoursePoint[] {
  const newest = points.at(-1);
  if (measure.plane !== 'ground' || measure.view !== 'lateral' || !newest?.film) return points;
  const wedge = wedgeOfFilm(newest.film);
  const alike = points.filter(({ film }) => {
    const other = film && wedgeOfFilm(film);
    return wedge === null || other === null ? wedge === other : Math.abs(other - wedge) <= study.change.angle;
  });
  return alike.length === points.length ? points : alike;
}

function trendOf(points: readonly CoursePoint[], comparing: Comparing, isAnew: boolean): Trend | null {
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
  const shared = comparing.shared(first, last);
  const isClear = (now: Uncertain): boolean => comparing.change(first, now, shared).clear;
  return {
    source: comparing.source,
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
