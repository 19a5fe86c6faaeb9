import { direction, plus, turned, type XY } from '../../geometry/vector.ts';
import { NEARER, sharedSign, STEP, steepest, steepnessAcross, type Station } from './edges.ts';
import { median } from './line-fit.ts';
import type { Pyramid } from './pyramid.ts';

/** Rows beside one another along which an end is looked for. */
const ROWS = [-2, -1, 0, 1, 2];
/** As many of them have to tell it. */
const LEAST = 4;
/** How far the rows may disagree: pixels, and as a share of what is looked at. */
const APART = { px: 1, share: 0.1 } as const;
/** A second place that is so much of the first in steepness may be the end as well. */
const RIVAL = 0.6;
/** Fainter ends, in greys over a pixel, are not told clearly. */
const CLEAR = 3;

/**
 * Two clicks near the ends of a bar: each laid onto the edge across the line between them, along that line. Null where they are one
 * place, and where not both are told clearly: an edge within `reach` pixels that several rows see at one place, that no other one
 * comes near in strength, and that grows lighter inwards at both ends or at none.
 */
export function edgeEnds(picture: Pyramid, a: XY, b: XY, reach: number): readonly [XY, XY] | null {
  const way = direction(b, a);
  if (!way) return null;
  const gap = reach / 4;
  const rowsAt = (end: XY, out: XY): readonly Float64Array[] =>
    ROWS.map((row): Station => ({ at: plus(end, turned(out), row * gap), across: out, along: turned(out) })).map(
      (station) => steepnessAcross(picture, station, reach, Math.max(1, gap)),
    );
  const outs = [way, { x: -way.x, y: -way.y }] as const;
  const rows = [rowsAt(a, outs[0]), rowsAt(b, outs[1])] as const;
  const sign = sharedSign(rows.flat(), reach);
  const [first, second] = [endIn(rows[0], sign, reach), endIn(rows[1], sign, reach)];
  return first === null || second === null ? null : [plus(a, outs[0], first), plus(b, outs[1], second)];
}

/** How far out an end lies, pixels; null where it is not told clearly. */
function endIn(rows: readonly Float64Array[], sign: number, reach: number): number | null {
  const all = (rows[0] ?? new Float64Array(0)).map(
    (_, i) => rows.reduce((sum, row) => sum + (row[i] ?? 0), 0) / rows.length,
  );
  const best = steepest(all, sign, reach, NEARER);
  if (best === null || Math.abs(best) > reach) return null;
  const middle = (all.length - 1) / 2;
  const there = Math.round(best / STEP + middle);
  const height = sign * (all[there] ?? 0);
  const rival = all.some(
    (_, i) =>
      Math.abs(i - there) * STEP > 2 &&
      sign * (all[i] ?? 0) > RIVAL * height &&
      sign * (all[i] ?? 0) >= sign * (all[i - 1] ?? 0) &&
      sign * (all[i] ?? 0) >= sign * (all[i + 1] ?? 0),
  );
  if (height < CLEAR || rival) return null;
  const told = rows.flatMap((row) => steepest(row, sign, reach, NEARER) ?? []);
  if (told.length < LEAST) return null;
  const at = median(told);
  const agree = told.filter((one) => Math.abs(one - at) <= Math.max(APART.px, APART.share * reach));
  return agree.length >= LEAST ? best : null;
}
