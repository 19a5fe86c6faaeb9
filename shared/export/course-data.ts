import type { Inspection } from '../findings/inspect.ts';
import { courseOf, PERIOD, type FootCourse } from '../course/course.ts';
import { LEVEL } from '../course/theil-sen.ts';
import { dateOfDay } from '../notation/dates.ts';
import type { FootName } from '../notation/choices.ts';
import type { Study } from '../trim/study.ts';
import { alarmsJson } from './alarms.ts';
import type { CourseJson } from './json-shapes.ts';
import { scaleOf } from '../views/course-sheet.ts';
import { sinkingLook } from '../views/sinking-sheet.ts';

/** The course of a case as other programs read it; lines count from 1, numbers are not rounded. */

export function coursedCase(
  file: string,
  inspection: Pick<Inspection, 'study' | 'tree'>,
  wanted: FootName | null,
): CourseJson['cases'][number] {
  const { study } = inspection;
  const feet = courseOf(study).filter(({ foot }) => wanted === null || foot === wanted);
  const filmed = feet.filter(({ views }) => views.length > 0);
  return {
    file,
    alarms: alarmsJson(inspection),
    films: Object.fromEntries(filmed.map((course) => [course.foot, filmsOf(course, study)])),
    feet: Object.fromEntries(
      filmed.map(({ foot, views }) => [foot, byMeasure(views.flatMap(({ measures }) => measures))]),
    ),
    photos: ofFeetWith(feet.map(({ foot, photos }) => [foot, photos.flatMap(({ measures }) => measures)])),
    byHand: ofFeetWith(feet.map(({ foot, taped }) => [foot, taped])),
    sinking: Object.fromEntries(feet.flatMap(({ foot }) => sinkingOf(foot, study))),
  };
}

type AnyCourse = FootCourse['taped'][number];

const byMeasure = (measures: readonly AnyCourse[]) =>
  Object.fromEntries(measures.map((one) => [one.measure.name, coursed(one)]));

/** Only the feet that have something of it. */
const ofFeetWith = (feet: readonly (readonly [FootName, readonly AnyCourse[]])[]) =>
  Object.fromEntries(feet.flatMap(([foot, those]) => (those.length > 0 ? [[foot, byMeasure(those)]] : [])));

function filmsOf({ views }: FootCourse, study: Study): CourseJson['cases'][number]['films'][string] {
  return views
    .flatMap(({ view, films }) => films.map((film) => ({ film, view })))
    .sort((a, b) => a.film.day - b.film.day)
    .map(({ film, view }) => {
      const { scaleFrom, doubted } = scaleOf(film, study);
      const line = film.visit.line + film.film.line + 1;
      return { date: film.date, line, view, scaleFrom, ...(doubted && { doubted }) };
    });
}

type Sinking = CourseJson['cases'][number]['sinking'][string];

function sinkingOf(foot: FootName, study: Study): [FootName, Sinking][] {
  const look = sinkingLook(foot, study);
  if (!look) return [];
  const { open, seenFrom, against } = look;
  if (!open) return [[foot, { told: 'none', seenFrom, against }]];
  const { certainty, rise, since } = open.alarm;
  const told = open.disputed ? 'perhaps' : certainty;
  return [[foot, { told, by: rise.by, sd: rise.sd, since: dateOfDay(since), seenFrom, against }]];
}

type CoursedMeasure = CourseJson['cases'][number]['feet'][string][string];

function coursed({ points, changes, trend, growOut }: AnyCourse): CoursedMeasure {
  return {
    n: points.length,
    ...(trend && {
      slopeFilms: trend.n,
      slope: trend.slope,
      low: trend.low,
      high: trend.high,
      ...(trend.level < LEVEL && { level: trend.level }),
      p: trend.p,
      per: `${PERIOD} days`,
    }),
    ...(growOut && { growOut }),
    changes: changes.map(({ from, to, difference, sd, clear, doubted, byShoe }) => ({
      from: from.date,
      to: to.date,
      difference,
      sd,
      real: clear,
      ...(doubted && { doubted }),
      ...(typeof byShoe === 'number' && { byShoe }),
    })),
  };
}
