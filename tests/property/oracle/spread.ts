/**
 * Standard deviations of whatever can be computed from a film, by nudging every coordinate.
 * The product uses exact derivatives; a step-by-step difference is a check that shares nothing
 * with them.
 *
 * Reading of the text, where the definition leaves room:
 *  1. 0.5 mm becomes pixels by the film's scale after `magnify`, for the marker's ends too, and
 *     stays a constant: it is not itself uncertain because the scale is.
 *  2. p3.wing and p3.wing.other are two placings, each with its own deviation.
 *  3. Cuts are exact.
 *  4. What the bones measure by other films is off for all lengths together, by one share, on top of the placings here.
 */

import { scaleOf, type Film, type Point, type Values } from './lateral.ts';

const SPREAD_MM = 0.5;
const SPREAD_PX = 5;

/** Small beside a foot of some hundred pixels, large beside the rounding of a double. */
const STEP_PX = 0.01;
/** Of a share of all lengths: about as far at the edge of a foot. */
const STEP_SHARE = 0.00001;

interface Coordinate {
  point: Point;
  axis: 'x' | 'y';
  sd: number;
  step: number;
}

interface Nudgeable {
  film: Film;
  coordinates: Coordinate[];
}

function nudgeable(original: Film): Nudgeable {
  const film = structuredClone(original);
  const scale = scaleOf(film);
  const assumed = film.readerSpread ?? (scale === undefined ? SPREAD_PX : SPREAD_MM / scale);
  const points: Point[] = [...film.landmarks];
  if (film.ground) points.push(film.ground.a, film.ground.b);
  if (film.bearing) points.push(film.bearing.a, film.bearing.b);
  if (film.scale?.form === 'marker') points.push(film.scale.ends.a, film.scale.ends.b);
  const coordinates: Coordinate[] = [];
  for (const point of points) {
    const sd = point.spread ?? assumed;
    coordinates.push({ point, axis: 'x', sd, step: STEP_PX }, { point, axis: 'y', sd, step: STEP_PX });
  }
  const { bones } = film;
  if (bones) coordinates.push({ point: bones.together, axis: 'x', sd: bones.together.spread ?? 0, step: STEP_SHARE });
  return { film, coordinates };
}

type Compute = (film: Film) => Values;

export function spreadsOf(original: Film, compute: Compute): Values {
  const { film, coordinates } = nudgeable(original);
  const variance: Values = new Map();
  for (const measure of compute(film).keys()) variance.set(measure, 0);
  for (const { point, axis, sd, step } of coordinates) {
    const home = point[axis];
    point[axis] = home + step;
    const ahead = compute(film);
    point[axis] = home - step;
    const behind = compute(film);
    point[axis] = home;
    for (const [measure, sum] of variance) {
      const slope = ((ahead.get(measure) ?? NaN) - (behind.get(measure) ?? NaN)) / (2 * step);
      variance.set(measure, sum + (slope * sd) ** 2);
    }
  }
  return rooted(variance);
}

function rooted(variance: Values): Values {
  const spreads: Values = new Map();
  for (const [measure, value] of variance) spreads.set(measure, Math.sqrt(value));
  return spreads;
}

/**
 * The variance that comes from curvature, as a share of the first-order variance: half the sum of
 * squared second derivatives, each times both variances. Steps of one standard deviation see the
 * curvature that a draw sees, rather than the one at a point.
 */
export function curvatureShares(original: Film, compute: Compute): Values {
  const { film, coordinates } = nudgeable(original);
  const centre = compute(film);
  const curved: Values = new Map();
  for (const measure of centre.keys()) curved.set(measure, 0);

  const shifted = (first: Coordinate, signA: number, second?: Coordinate, signB = 0): Values => {
    const homeA = first.point[first.axis];
    const homeB = second?.point[second.axis];
    first.point[first.axis] += signA * first.sd;
    if (second) second.point[second.axis] += signB * second.sd;
    const values = compute(film);
    if (second && homeB !== undefined) second.point[second.axis] = homeB;
    first.point[first.axis] = homeA;
    return values;
  };
  const add = (measure: string, bend: number, weight: number): void => {
    curved.set(measure, (curved.get(measure) ?? 0) + weight * bend ** 2);
  };

  coordinates.forEach((first, index) => {
    const ahead = shifted(first, 1);
    const behind = shifted(first, -1);
    for (const [measure, value] of centre) {
      add(measure, (ahead.get(measure) ?? NaN) - 2 * value + (behind.get(measure) ?? NaN), 0.5);
    }
    for (const second of coordinates.slice(index + 1)) {
      const corners = [
        shifted(first, 1, second, 1),
        shifted(first, -1, second, -1),
        shifted(first, 1, second, -1),
        shifted(first, -1, second, 1),
      ].map(
        (values) =>
          (measure: string): number =>
            values.get(measure) ?? NaN,
      );
      const [pp, mm, pm, mp] = corners;
      if (!pp || !mm || !pm || !mp) continue;
      // Half the sum over ordered pairs counts each unordered pair once.
      for (const measure of centre.keys()) add(measure, (pp(measure) + mm(measure) - pm(measure) - mp(measure)) / 4, 1);
    }
  });

  const first = spreadsOf(original, compute);
  const shares: Values = new Map();
  for (const [measure, value] of curved) shares.set(measure, value / (first.get(measure) ?? NaN) ** 2);
  return shares;
}

/** Standard deviations over random placings; `uniform` gives numbers in [0, 1). */
export function drawnSpreads(original: Film, compute: Compute, draws: number, uniform: () => number): Values {
  const { film, coordinates } = nudgeable(original);
  const homes = coordinates.map(({ point, axis }) => point[axis]);
  const centre = compute(film);
  const sums = new Map([...centre.keys()].map((measure) => [measure, { first: 0, second: 0 }]));
  for (let draw = 0; draw < draws; draw += 1) {
    coordinates.forEach(({ point, axis, sd }, index) => {
      point[axis] = (homes[index] ?? NaN) + sd * normal(uniform);
    });
    const values = compute(film);
    for (const [measure, sum] of sums) {
      // Around the centre, not around zero: keeps digits where the spread is small.
      const off = (values.get(measure) ?? NaN) - (centre.get(measure) ?? NaN);
      sum.first += off;
      sum.second += off * off;
    }
  }
  const spreads: Values = new Map();
  for (const [measure, { first, second }] of sums) {
    spreads.set(measure, Math.sqrt((second - (first * first) / draws) / (draws - 1)));
  }
  return spreads;
}

/** Box and Muller. */
function normal(uniform: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
