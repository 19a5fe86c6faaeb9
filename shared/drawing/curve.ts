import { distance, minus, plus, type XY } from '../geometry/vector.ts';
import type { PathSegment } from './scene.ts';

/** A point of an outline; at a corner the curve may turn sharply. */
export interface Knot extends XY {
  readonly corner?: boolean;
}

export function corner(p: XY): Knot {
  return { x: p.x, y: p.y, corner: true };
}

function withoutDoubles(knots: readonly Knot[], closed: boolean): Knot[] {
  const kept: Knot[] = [];
  for (const knot of knots) {
    const last = kept[kept.length - 1];
    if (!last || distance(last, knot) > 1e-6) kept.push(knot);
  }
  const first = kept[0];
  const last = kept[kept.length - 1];
  if (closed && kept.length > 1 && first && last && distance(first, last) <= 1e-6) kept.pop();
  return kept;
}

/**
 * A smooth curve through every knot. Handles are bounded by the shorter neighbour, so that close knots beside far
 * ones (a bone's tip beside its long border) do not throw loops.
 */
export function smooth(knots: readonly Knot[], closed: boolean): PathSegment[] {
  const path = withoutDoubles(knots, closed);
  const n = path.length;
  const start = path[0];
  if (!start || n < 2) return [];
  const at = (i: number): Knot => path[closed ? (i + n) % n : Math.min(Math.max(i, 0), n - 1)] ?? start;
  const handle = (i: number, way: 1 | -1): XY => {
    const here = at(i);
    const next = at(i + way);
    const span = distance(here, next);
    if (here.corner || (!closed && (i === 0 || i === n - 1))) {
      return plus(here, minus(next, here), 1 / 3);
    }
    const before = at(i - 1);
    const after = at(i + 1);
    const into = distance(before, here);
    const out = distance(here, after);
    // Tangent of the parabola through three knots by chord length: the near neighbour counts for more.
    const share = out / (into + out);
    const tangent = plus(
      { x: ((here.x - before.x) / into) * share, y: ((here.y - before.y) / into) * share },
      { x: (after.x - here.x) / out, y: (after.y - here.y) / out },
      1 - share,
    );
    const size = Math.hypot(tangent.x, tangent.y);
    if (size < 1e-9) return plus(here, minus(next, here), 1 / 3);
    return plus(here, tangent, (way * span * 0.36) / size);
  };
  const segments: PathSegment[] = [['M', start.x, start.y]];
  const last = closed ? n : n - 1;
  for (let i = 0; i < last; i += 1) {
    const end = at(i + 1);
    const a = handle(i, 1);
    const b = handle(closed ? (i + 1) % n : i + 1, -1);
    segments.push(['C', a.x, a.y, b.x, b.y, end.x, end.y]);
  }
  if (closed) segments.push(['Z']);
  return segments;
}

export function straight(points: readonly XY[], closed = false): PathSegment[] {
  const segments: PathSegment[] = points.map((p, i) => [i === 0 ? 'M' : 'L', p.x, p.y] as const);
  if (closed) segments.push(['Z']);
  return segments;
}

/** The curve as a chain of points, fine enough to clip hatching by. */
export function flatten(segments: readonly PathSegment[], steps = 8): XY[] {
  const points: XY[] = [];
  let here: XY = { x: 0, y: 0 };
  for (const s of segments) {
    if (s[0] === 'Z') continue;
    if (s[0] === 'C') {
      for (let i = 1; i <= steps; i += 1) {
        const t = i / steps;
        const r = 1 - t;
        const a = r * r * r;
        const b = 3 * r * r * t;
        const c = 3 * r * t * t;
        const d = t * t * t;
        points.push({
          x: a * here.x + b * s[1] + c * s[3] + d * s[5],
          y: a * here.y + b * s[2] + c * s[4] + d * s[6],
        });
      }
      here = { x: s[5], y: s[6] };
    } else {
      here = { x: s[1], y: s[2] };
      points.push(here);
    }
  }
  return points;
}

/** The point at a share of a chain's length. */
export function along(chain: readonly XY[], share: number): XY {
  let total = 0;
  for (let i = 1; i < chain.length; i += 1) total += distance(chain[i - 1]!, chain[i]!);
  let left = Math.min(Math.max(share, 0), 1) * total;
  for (let i = 1; i < chain.length; i += 1) {
    const a = chain[i - 1]!;
    const b = chain[i]!;
    const span = distance(a, b);
    if (left <= span && span > 0) return plus(a, minus(b, a), left / span);
    left -= span;
  }
  return chain[chain.length - 1] ?? { x: 0, y: 0 };
}

/** Points of a circle from one angle to another, both ends included. */
export function round(centre: XY, radius: number, from: number, to: number, count: number): XY[] {
  const points: XY[] = [];
  for (let i = 0; i <= count; i += 1) {
    const angle = from + ((to - from) * i) / count;
    points.push({ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) });
  }
  return points;
}
