import { angleOf, hypotenuse, type Real } from './real.ts';

export interface Point {
  readonly x: Real;
  readonly y: Real;
}

export function vector(from: Point, to: Point): Point {
  return { x: to.x.minus(from.x), y: to.y.minus(from.y) };
}

export function added(a: Point, b: Point): Point {
  return { x: a.x.plus(b.x), y: a.y.plus(b.y) };
}

export function dot(a: Point, b: Point): Real {
  return a.x.times(b.x).plus(a.y.times(b.y));
}

/** Positive where b turns left of a. */
export function cross(a: Point, b: Point): Real {
  return a.x.times(b.y).minus(a.y.times(b.x));
}

export function distance(a: Point, b: Point): Real {
  const d = vector(a, b);
  return hypotenuse(d.x, d.y);
}

export function midpoint(a: Point, b: Point): Point {
  return { x: a.x.plus(b.x).times(0.5), y: a.y.plus(b.y).times(0.5) };
}

/** Unit vector; the length must not be 0. */
export function unit(v: Point): Point {
  const length = hypotenuse(v.x, v.y);
  return { x: v.x.over(length), y: v.y.over(length) };
}

/** A quarter turn clockwise in a frame whose y points up. */
export function clockwise(v: Point): Point {
  return { x: v.y, y: v.x.negated() };
}

/** Turned by `angle` radians, anticlockwise where y points up. */
export function turned(v: Point, angle: Real): Point {
  const c = angle.cosine();
  const s = angle.sine();
  return { x: v.x.times(c).minus(v.y.times(s)), y: v.x.times(s).plus(v.y.times(c)) };
}

export function negated(v: Point): Point {
  return { x: v.x.negated(), y: v.y.negated() };
}

export const degrees = 180 / Math.PI;

/** Degrees at the ground, opening towards the heel, of the line that leans back from `low` to `high`. */
export function slope(low: Point, high: Point): Real {
  return angleOf(high.y.minus(low.y), low.x.minus(high.x)).times(degrees);
}

/** How far one goes from `start` along the unit vector `along` to the line through a and b; null where they are parallel. */
export function reach(start: Point, along: Point, a: Point, b: Point): Real | null {
  const line = vector(a, b);
  const across = cross(along, line);
  if (Math.abs(across.value) < 1e-12) return null;
  return cross(vector(start, a), line).over(across);
}
