import { minus, type XY } from '../geometry/vector.ts';
import type { VectorMap } from '../picture/seek/patch-search.ts';

/**
 * Places of one picture on another: a turn, a size and a shift; mirrored first where the foot looks the other way. As complex
 * numbers z becomes a z + d, where z is x + iy, or -x + iy if mirrored.
 */
export interface PointMap {
  readonly mirrored: boolean;
  readonly a: XY;
  readonly d: XY;
}

export type Pair = readonly [from: XY, to: XY];

/** The map that leaves the least squares between pairs; null for fewer than two, or where all lie in one place. */
export function mapOf(pairs: readonly Pair[], mirrored: boolean): PointMap | null {
  const count = pairs.length;
  if (count < 2) return null;
  let [fromX, fromY, toX, toY] = [0, 0, 0, 0];
  for (const [from, to] of pairs) {
    fromX += (mirrored ? -from.x : from.x) / count;
    fromY += from.y / count;
    toX += to.x / count;
    toY += to.y / count;
  }
  let [real, imaginary, squares] = [0, 0, 0];
  for (const [from, to] of pairs) {
    const [x, y] = [(mirrored ? -from.x : from.x) - fromX, from.y - fromY];
    const [px, py] = [to.x - toX, to.y - toY];
    real += x * px + y * py;
    imaginary += x * py - y * px;
    squares += x * x + y * y;
  }
  if (!(squares > 0)) return null;
  const a = { x: real / squares, y: imaginary / squares };
  if (!(Math.hypot(a.x, a.y) > 0)) return null;
  return { mirrored, a, d: { x: toX - (a.x * fromX - a.y * fromY), y: toY - (a.x * fromY + a.y * fromX) } };
}

export function mapped({ mirrored, a, d }: PointMap, { x, y }: XY): XY {
  const across = mirrored ? -x : x;
  return { x: a.x * across - a.y * y + d.x, y: a.x * y + a.y * across + d.y };
}

export const sizeOfMap = ({ a }: PointMap): number => Math.hypot(a.x, a.y);

export function vectorMap(map: PointMap): VectorMap {
  const origin = mapped(map, { x: 0, y: 0 });
  return {
    right: minus(mapped(map, { x: 1, y: 0 }), origin),
    down: minus(mapped(map, { x: 0, y: 1 }), origin),
  };
}

/** A way of one picture on the other. */
export function mappedWay({ right, down }: VectorMap, way: XY): XY {
  return { x: right.x * way.x + down.x * way.y, y: right.y * way.x + down.y * way.y };
}

/** From the other picture back. */
export function inverse({ right, down }: VectorMap): VectorMap {
  const determinant = right.x * down.y - right.y * down.x;
  return {
    right: { x: down.y / determinant, y: -right.y / determinant },
    down: { x: -down.x / determinant, y: right.x / determinant },
  };
}

/**
 * The map that most of the pairs agree on within `near` pixels of the other picture, settled on those; null where fewer than
 * `least` do.
 */
export function agreedMap(
  pairs: readonly Pair[],
  mirrored: boolean,
  near: number,
  least: number,
): { readonly map: PointMap; readonly agreeing: readonly Pair[] } | null {
  let best: { map: PointMap; agreeing: readonly Pair[]; off: number } | null = null;
  for (const [i, one] of pairs.entries())
    for (const other of pairs.slice(i + 1)) {
      const map = mapOf([one, other], mirrored);
      if (!map) continue;
      const agreeing = pairs.filter((pair) => offBy(map, pair) <= near);
      const off = agreeing.reduce((sum, pair) => sum + offBy(map, pair), 0);
      if (
        !best ||
        agreeing.length > best.agreeing.length ||
        (agreeing.length === best.agreeing.length && off < best.off)
      )
        best = { map, agreeing, off };
    }
  if (!best || best.agreeing.length < least) return null;
  const settled = mapOf(best.agreeing, mirrored);
  return settled && { map: settled, agreeing: best.agreeing };
}

export function offBy(map: PointMap, [from, to]: Pair): number {
  const at = mapped(map, from);
  return Math.hypot(at.x - to.x, at.y - to.y);
}
