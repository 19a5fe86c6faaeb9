import { at, gap, minus, plus, type Point } from './plane.ts';

/**
 * Centripetal Catmull-Rom: it passes through every point given, so a landmark can be a point of the outline,
 * and unlike the uniform kind it makes neither loops nor cusps where points lie unevenly.
 */
function between(p0: Point, p1: Point, p2: Point, p3: Point, steps: number): Point[] {
  const t1 = Math.sqrt(gap(p0, p1));
  const t2 = t1 + Math.sqrt(gap(p1, p2));
  const t3 = t2 + Math.sqrt(gap(p2, p3));
  const mix = (a: Point, b: Point, ta: number, tb: number, t: number): Point => {
    const k = (t - ta) / (tb - ta);
    return at(a.x + (b.x - a.x) * k, a.y + (b.y - a.y) * k);
  };
  const points: Point[] = [];
  for (let i = 0; i < steps; i++) {
    const t = t1 + ((t2 - t1) * i) / steps;
    const a1 = mix(p0, p1, 0, t1, t);
    const a2 = mix(p1, p2, t1, t2, t);
    const a3 = mix(p2, p3, t2, t3, t);
    points.push(mix(mix(a1, a2, 0, t2, t), mix(a2, a3, t1, t3, t), t1, t2, t));
  }
  return points;
}

const pick = (points: readonly Point[], i: number): Point => {
  const p = points[i];
  if (!p) throw new Error('a curve needs its points');
  return p;
};

/** A smooth closed outline through the points. */
export function closed(points: readonly Point[], steps = 6): Point[] {
  const n = points.length;
  return points.flatMap((p, i) =>
    between(pick(points, (i + n - 1) % n), p, pick(points, (i + 1) % n), pick(points, (i + 2) % n), steps),
  );
}

/** A smooth open line from the first point to the last. */
export function open(points: readonly Point[], steps = 6): Point[] {
  const n = points.length;
  const first = pick(points, 0);
  const last = pick(points, n - 1);
  const before = plus(first, minus(first, pick(points, 1)));
  const after = plus(last, minus(last, pick(points, n - 2)));
  const all = [before, ...points, after];
  const line: Point[] = [];
  for (let i = 1; i < n; i++) {
    line.push(...between(pick(all, i - 1), pick(all, i), pick(all, i + 1), pick(all, i + 2), steps));
  }
  return [...line, last];
}
