import { hypotenuse, lengthOf, type Real } from './real.ts';

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
  const [ax, ay, bx, by] = [a.x.value, a.y.value, b.x.value, b.y.value];
  return a.x.graph.ofTwo(ax * bx + ay * by, a, bx, by, b, ax, ay);
}

/** How far `to` lies from `from` along an axis, which need not be of length 1. */
export function along(from: Point, to: Point, axis: Point): Real {
  return from.x.graph.along(from, to, axis);
}

/** Positive where b turns left of a. */
export function cross(a: Point, b: Point): Real {
  const [ax, ay, bx, by] = [a.x.value, a.y.value, b.x.value, b.y.value];
  return a.x.graph.ofTwo(ax * by - ay * bx, a, by, -bx, b, -ay, ax);
}

export function distance(a: Point, b: Point): Real {
  const dx = b.x.value - a.x.value;
  const dy = b.y.value - a.y.value;
  const length = lengthOf(dx, dy);
  return a.x.graph.ofTwo(length, a, -dx / length, -dy / length, b, dx / length, dy / length);
}

export function midpoint(a: Point, b: Point): Point {
  const { graph } = a.x;
  return {
    x: graph.binary((a.x.value + b.x.value) * 0.5, a.x, 0.5, b.x, 0.5),
    y: graph.binary((a.y.value + b.y.value) * 0.5, a.y, 0.5, b.y, 0.5),
  };
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
  const by = { x: angle.cosine(), y: angle.sine() };
  return { x: dot(v, { x: by.x, y: by.y.negated() }), y: dot(v, { x: by.y, y: by.x }) };
}

export function negated(v: Point): Point {
  return { x: v.x.negated(), y: v.y.negated() };
}

export const degrees = 180 / Math.PI;

/** Degrees at the ground, opening towards the heel, of the line that leans back from `low` to `high`. */
export function slope(low: Point, high: Point): Real {
  return risen(low, high, -1);
}

/** Degrees at the ground of the line from a to b, from +X: positive where b lies higher. */
export function tilt(a: Point, b: Point): Real {
  return risen(a, b, 1);
}

/** atan2(Y b - Y a, `sense` × (X b - X a)), degrees. */
function risen(a: Point, b: Point, sense: 1 | -1): Real {
  const dx = sense * (b.x.value - a.x.value);
  const dy = b.y.value - a.y.value;
  const square = (dx * dx + dy * dy) / degrees;
  const byX = (-sense * dy) / square;
  const byY = dx / square;
  return a.x.graph.ofTwo(Math.atan2(dy, dx) * degrees, a, -byX, -byY, b, byX, byY);
}

/** How far one goes from `start` along the unit vector `along` to the line through a and b; null where they are parallel. */
export function reach(start: Point, along: Point, a: Point, b: Point): Real | null {
  const line = vector(a, b);
  const across = cross(along, line);
  if (Math.abs(across.value) < 1e-12) return null;
  return cross(vector(start, a), line).over(across);
}

/**
 * How far `low` lies below `high` once everything is turned until `line` points `direction` degrees up from +X. Null for a
 * line of no length.
 */
export function belowWhenTurned(high: Point, low: Point, line: Point, direction: number): Real | null {
  if (line.x.value === 0 && line.y.value === 0) return null;
  const along = unit(line);
  const rise = vector(low, high);
  const angle = direction / degrees;
  // The height of `rise` after the turn, written without the angle of the line.
  return dot(along, rise)
    .times(Math.sin(angle))
    .plus(cross(along, rise).times(Math.cos(angle)));
}
