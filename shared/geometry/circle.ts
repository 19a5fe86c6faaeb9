import type { XY } from './vector.ts';

/**
 * The circle through three places: where the rim of a rounded bone end is clicked three times, its centre is the joint's.
 * Null where the three lie on a line, or nearly so: the circle would be larger than anything that is known of them.
 */
export function circleThrough(a: XY, b: XY, c: XY): (XY & { readonly radius: number }) | null {
  const [bx, by, cx, cy] = [b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y];
  const twice = 2 * (bx * cy - by * cx);
  const longest = Math.max(Math.hypot(bx, by), Math.hypot(cx, cy), Math.hypot(cx - bx, cy - by));
  if (Math.abs(twice) <= 1e-9 * longest * longest) return null;
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  const x = (cy * bb - by * cc) / twice;
  const y = (bx * cc - cx * bb) / twice;
  return { x: a.x + x, y: a.y + y, radius: Math.hypot(x, y) };
}
