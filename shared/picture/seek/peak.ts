/** The top of a surface of values: where, to a fraction of a step, how high, and how steeply it falls away. */
export interface Peak {
  /** In steps of the surface, from its first value. */
  readonly x: number;
  readonly y: number;
  readonly height: number;
  /** Second derivatives there; below 0 it falls away to both sides. */
  readonly bend: { readonly xx: number; readonly xy: number; readonly yy: number };
  /** It goes on rising beyond the surface, as far as anybody can tell. */
  readonly atRim: boolean;
}

/** The highest value of a square surface and the paraboloid through it and its eight neighbours, by least squares. */
export function highestPeak(surface: Float32Array, side: number): Peak {
  let best = 0;
  for (let at = 1; at < surface.length; at++) if ((surface[at] ?? 0) > (surface[best] ?? 0)) best = at;
  return peakAt(surface, side, best);
}

/** Every value that none of its neighbours exceeds, the highest first. */
export function peaks(surface: Float32Array, side: number, most: number): readonly Peak[] {
  const tops: number[] = [];
  for (let row = 0; row < side; row++)
    for (let column = 0; column < side; column++) {
      const at = row * side + column;
      if (isTop(surface, side, column, row)) tops.push(at);
    }
  const height = (at: number): number => surface[at] ?? 0;
  return tops
    .sort((a, b) => height(b) - height(a))
    .slice(0, most)
    .map((at) => peakAt(surface, side, at));
}

function isTop(surface: Float32Array, side: number, column: number, row: number): boolean {
  const at = row * side + column;
  const here = surface[at] ?? 0;
  for (let y = Math.max(0, row - 1); y <= Math.min(side - 1, row + 1); y++)
    for (let x = Math.max(0, column - 1); x <= Math.min(side - 1, column + 1); x++) {
      const other = y * side + x;
      const there = surface[other] ?? 0;
      // Of neighbours that are as high the first is the top, so that a plateau has one.
      if (there > here || (there === here && other < at)) return false;
    }
  return true;
}

/** The paraboloid through nine values by least squares, and its top if it has one within a step. */
function peakAt(surface: Float32Array, side: number, at: number): Peak {
  const column = at % side;
  const row = (at - column) / side;
  const here = surface[at] ?? 0;
  const flat = { xx: 0, xy: 0, yy: 0 };
  if (column === 0 || row === 0 || column === side - 1 || row === side - 1)
    return { x: column, y: row, height: here, bend: flat, atRim: true };
  const value = (dx: number, dy: number): number => surface[at + dy * side + dx] ?? 0;
  let [x, y, xx, xy, yy] = [0, 0, 0, 0, 0];
  for (let d = -1; d <= 1; d++) {
    x += (value(1, d) - value(-1, d)) / 6;
    y += (value(d, 1) - value(d, -1)) / 6;
    xx += (value(1, d) - 2 * value(0, d) + value(-1, d)) / 3;
    yy += (value(d, 1) - 2 * value(d, 0) + value(d, -1)) / 3;
  }
  xy = (value(1, 1) - value(-1, 1) - value(1, -1) + value(-1, -1)) / 4;
  const bend = { xx, xy, yy };
  const determinant = xx * yy - xy * xy;
  if (!(xx < 0 && yy < 0 && determinant > 0)) return { x: column, y: row, height: here, bend, atRim: false };
  const dx = (xy * y - yy * x) / determinant;
  const dy = (xy * x - xx * y) / determinant;
  if (Math.abs(dx) > 1 || Math.abs(dy) > 1) return { x: column, y: row, height: here, bend, atRim: false };
  return { x: column + dx, y: row + dy, height: Math.max(here, here + (x * dx + y * dy) / 2), bend, atRim: false };
}

/** Where the top of a parabola through three values lies from the middle one, in steps; 0 where it has none. */
export function topOfThree(before: number, here: number, after: number): number {
  const bend = before - 2 * here + after;
  return bend < 0 ? Math.max(-1, Math.min(1, (before - after) / (2 * bend))) : 0;
}
