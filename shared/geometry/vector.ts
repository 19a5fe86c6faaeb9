/** A place or a way in a plane, as plain numbers: pixels of a picture (y downwards), or millimetres of a foot (y upwards). */
export interface XY {
  readonly x: number;
  readonly y: number;
}

export function minus(a: XY, b: XY): XY {
  return { x: a.x - b.x, y: a.y - b.y };
}

export function plus(a: XY, b: XY, times = 1): XY {
  return { x: a.x + b.x * times, y: a.y + b.y * times };
}

export function between(a: XY, b: XY, share: number): XY {
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

export function dot(a: XY, b: XY): number {
  return a.x * b.x + a.y * b.y;
}

export function cross(a: XY, b: XY): number {
  return a.x * b.y - a.y * b.x;
}

export function length(a: XY): number {
  return Math.hypot(a.x, a.y);
}

export function distance(a: XY, b: XY): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

export function turned(a: XY): XY {
  return { x: -a.y, y: a.x };
}

const TINY = 1e-6;

/** Of length 1; null where the two are one place, near enough. */
export function direction(from: XY, to: XY): XY | null {
  const d = minus(to, from);
  const size = length(d);
  return size > TINY ? { x: d.x / size, y: d.y / size } : null;
}

/** Where two lines meet, each a point and a direction; null where they run side by side. */
export function meet(a: XY, alongA: XY, b: XY, alongB: XY): XY | null {
  const turn = cross(alongA, alongB);
  if (Math.abs(turn) < 1e-3) return null;
  return plus(a, alongA, cross(minus(b, a), alongB) / turn);
}

export function mean(points: readonly XY[]): XY | null {
  if (points.length === 0) return null;
  let x = 0;
  let y = 0;
  for (const p of points) {
    x += p.x / points.length;
    y += p.y / points.length;
  }
  return { x, y };
}

export function isFinitePoint(p: XY): boolean {
  return Number.isFinite(p.x) && Number.isFinite(p.y);
}
