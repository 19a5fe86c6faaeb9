import type { XY } from '../../../shared/views/film-sheet.ts';

/** Looks for the edge next to a place in a small patch of a picture. Pure. */

/** Shades row by row, 0 to 255; one a pixel of the picture. */
export interface Patch {
  readonly width: number;
  readonly height: number;
  readonly shades: Float32Array;
}

export interface Edge {
  readonly x: number;
  readonly y: number;
  /** Shades over a pixel, across the edge. */
  readonly strength: number;
}

/** A weaker one is grain. */
const LEAST = 3;

/**
 * The strongest edge within `radius` pixels of a place (both counted from the patch's corner; the middle of its first pixel lies at
 * 0.5, 0.5), a nearer one before one that is as strong further off; found to a fraction of a pixel across the edge. Null where
 * there is none.
 */
export function nearestEdge(patch: Patch, at: XY, radius: number): Edge | null {
  const smooth = smoothed(patch);
  const { width, height } = patch;
  let best = 0;
  let found: { column: number; row: number } | null = null;
  for (let row = 2; row < height - 2; row++)
    for (let column = 2; column < width - 2; column++) {
      const off = Math.hypot(column + 0.5 - at.x, row + 0.5 - at.y);
      if (off > radius) continue;
      const { x, y } = gradient(smooth, width, column, row);
      const strength = Math.hypot(x, y);
      const worth = strength * (1 - 0.6 * (off / radius) ** 2);
      if (strength >= LEAST && worth > best) {
        best = worth;
        found = { column, row };
      }
    }
  if (!found) return null;
  const { column, row } = found;
  const way = gradient(smooth, width, column, row);
  const strength = Math.hypot(way.x, way.y);
  const along = { x: way.x / strength, y: way.y / strength };
  const beside = (by: number): number => steepness(smooth, width, column + along.x * by, row + along.y * by);
  const [before, here, after] = [beside(-1), strength, beside(1)];
  const curve = before - 2 * here + after;
  // The top of a parabola through the three; where the middle is no top, the pixel itself.
  const shift = curve < 0 ? Math.max(-0.75, Math.min(0.75, (before - after) / (2 * curve))) : 0;
  return { x: column + 0.5 + along.x * shift, y: row + 0.5 + along.y * shift, strength };
}

/** Three by three, 1 2 1: less of the grain, and the edge stays where it is. */
function smoothed({ width, height, shades }: Patch): Float32Array {
  const across = new Float32Array(shades.length);
  const both = new Float32Array(shades.length);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const at = row * width + column;
      const left = shades[column > 0 ? at - 1 : at] ?? 0;
      const right = shades[column < width - 1 ? at + 1 : at] ?? 0;
      across[at] = (left + 2 * (shades[at] ?? 0) + right) / 4;
    }
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) {
      const at = row * width + column;
      const above = across[row > 0 ? at - width : at] ?? 0;
      const below = across[row < height - 1 ? at + width : at] ?? 0;
      both[at] = (above + 2 * (across[at] ?? 0) + below) / 4;
    }
  return both;
}

function gradient(shades: Float32Array, width: number, column: number, row: number): XY {
  const at = row * width + column;
  return {
    x: ((shades[at + 1] ?? 0) - (shades[at - 1] ?? 0)) / 2,
    y: ((shades[at + width] ?? 0) - (shades[at - width] ?? 0)) / 2,
  };
}

/** Steepness between the middles of pixels, bilinear. */
function steepness(shades: Float32Array, width: number, x: number, y: number): number {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  const [right, down] = [x - column, y - row];
  const at = (dx: number, dy: number): number => {
    const way = gradient(shades, width, column + dx, row + dy);
    return Math.hypot(way.x, way.y);
  };
  return (at(0, 0) * (1 - right) + at(1, 0) * right) * (1 - down) + (at(0, 1) * (1 - right) + at(1, 1) * right) * down;
}
