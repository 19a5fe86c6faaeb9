import type { XY } from '../../geometry/vector.ts';
import { median } from './line-fit.ts';

/** A circle through places. */
export interface CircleFit {
  readonly centre: XY;
  readonly radius: number;
  /** One standard deviation of the centre, where it is told worst. */
  readonly centreSd: number;
  readonly radiusSd: number;
  /** Of one place about the circle. */
  readonly residualSd: number;
  readonly count: number;
}

interface Round {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/**
 * The circle that leaves the least squares of distances, by Gauss's and Newton's steps from a first one. Null for fewer than four
 * places, and where the steps lead nowhere.
 */
export function leastSquaresCircle(places: readonly XY[], first: Round): CircleFit | null {
  const count = places.length;
  if (count < 4) return null;
  let { x, y, radius } = first;
  let normal = emptyNormal();
  for (let round = 0; round < 60; round++) {
    normal = emptyNormal();
    for (const place of places) {
      const [dx, dy] = [place.x - x, place.y - y];
      const far = Math.hypot(dx, dy);
      if (far === 0) continue;
      gather(normal, -dx / far, -dy / far, far - radius);
    }
    const step = solved(normal);
    if (!step) return null;
    x += step[0];
    y += step[1];
    radius += step[2];
    if (!Number.isFinite(x + y + radius)) return null;
    if (Math.hypot(step[0], step[1], step[2]) < 1e-10 * Math.max(1, radius)) break;
  }
  if (!(radius > 0)) return null;
  let left = 0;
  for (const place of places) left += (Math.hypot(place.x - x, place.y - y) - radius) ** 2;
  const residualSd = Math.sqrt(left / (count - 3));
  const inverse = inverted(normal);
  if (!inverse) return null;
  const [xx, xy, yy, rr] = inverse;
  const worst = (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
  return {
    centre: { x, y },
    radius,
    centreSd: residualSd * Math.sqrt(worst),
    radiusSd: residualSd * Math.sqrt(rr),
    residualSd,
    count,
  };
}

/** The same of those places that lie within three deviations of it; null where fewer than `least` are left. */
export function robustCircle(places: readonly XY[], first: Round, least = 8): CircleFit | null {
  let round = first;
  let kept = places;
  let found: CircleFit | null = null;
  for (let time = 0; time < 5; time++) {
    const off = places.map((place) => Math.abs(Math.hypot(place.x - round.x, place.y - round.y) - round.radius));
    const limit = Math.max(0.1, 3 * 1.4826 * median(off));
    kept = places.filter((_, i) => (off[i] ?? Infinity) <= limit);
    if (kept.length < least) return null;
    found = leastSquaresCircle(kept, round);
    if (!found) return null;
    round = { ...found.centre, radius: found.radius };
  }
  return found;
}

/** Sums of products of the derivatives by x, y and radius, and of those with what is left. */
interface Normal {
  xx: number;
  xy: number;
  xr: number;
  yy: number;
  yr: number;
  rr: number;
  x: number;
  y: number;
  r: number;
}

const emptyNormal = (): Normal => ({ xx: 0, xy: 0, xr: 0, yy: 0, yr: 0, rr: 0, x: 0, y: 0, r: 0 });

/** The derivative of what is left by the radius is -1. */
function gather(n: Normal, byX: number, byY: number, left: number): void {
  n.xx += byX * byX;
  n.xy += byX * byY;
  n.xr -= byX;
  n.yy += byY * byY;
  n.yr -= byY;
  n.rr += 1;
  n.x -= byX * left;
  n.y -= byY * left;
  n.r += left;
}

function determinantOf({ xx, xy, xr, yy, yr, rr }: Normal): number {
  return xx * (yy * rr - yr * yr) - xy * (xy * rr - yr * xr) + xr * (xy * yr - yy * xr);
}

function solved(n: Normal): readonly [number, number, number] | null {
  const all = determinantOf(n);
  if (!(Math.abs(all) > 1e-12)) return null;
  const { xx, xy, xr, yy, yr, rr, x, y, r } = n;
  const byX = x * (yy * rr - yr * yr) - xy * (y * rr - yr * r) + xr * (y * yr - yy * r);
  const byY = xx * (y * rr - r * yr) - x * (xy * rr - yr * xr) + xr * (xy * r - y * xr);
  const byR = xx * (yy * r - yr * y) - xy * (xy * r - y * xr) + x * (xy * yr - yy * xr);
  return [byX / all, byY / all, byR / all];
}

/** Of the inverse: xx, xy, yy and rr. */
function inverted(n: Normal): readonly [number, number, number, number] | null {
  const all = determinantOf(n);
  if (!(Math.abs(all) > 1e-12)) return null;
  const { xx, xy, xr, yy, yr, rr } = n;
  return [(yy * rr - yr * yr) / all, (xr * yr - xy * rr) / all, (xx * rr - xr * xr) / all, (xx * yy - xy * xy) / all];
}
