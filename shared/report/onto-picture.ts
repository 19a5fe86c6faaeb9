import type { Frame } from '../geometry/frame.ts';
import type { XY } from './film-sheet.ts';

/** A place in the frame of a foot, mm, to the pixels of its picture. */
export type OntoPicture = (place: XY) => XY;

/**
 * The way back from a lateral foot frame to the picture. Facing and the side of the ground are read off the frame itself, so
 * that whatever it was settled by, the way back cannot disagree. Null where the frame has no scale or no extent.
 */
export function ontoPicture(
  frame: Frame,
  placed: Readonly<Record<string, XY>>,
  ground: readonly [XY, XY] | null,
): OntoPicture | null {
  const scale = frame.scale?.value;
  const from = ground?.[0] ?? placed['heel.ground'];
  const to = ground?.[1] ?? placed['toe.ground'];
  if (!scale || !from || !to) return null;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length === 0) return null;
  const line = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const normal = { x: line.y, y: -line.x };
  const pairs = Object.entries(placed).flatMap(([name, spot]) => {
    const point = frame.at(name);
    // With two wings the frame has the middle between them under the name of the first.
    const isOther = name === 'p3.wing' && 'p3.wing.other' in placed;
    return point && !isOther ? [{ spot, x: point.x.value, y: point.y.value }] : [];
  });
  const [any] = pairs;
  if (!any) return null;
  const meanX = pairs.reduce((sum, { x }) => sum + x, 0) / pairs.length;
  const facing = pairs.reduce((sum, { spot, x }) => sum + (x - meanX) * dot(minus(spot, from), line), 0);
  const upwards = pairs.reduce((sum, { spot, y }) => sum + y * dot(minus(spot, from), normal), 0);
  if (facing === 0 || upwards === 0) return null;
  const u = times(line, Math.sign(facing) / scale);
  const v = times(normal, Math.sign(upwards) / scale);
  const origin = minus(minus(any.spot, times(u, any.x)), times(v, any.y));
  return ({ x, y }) => ({ x: origin.x + u.x * x + v.x * y, y: origin.y + u.y * x + v.y * y });
}

const minus = (a: XY, b: XY): XY => ({ x: a.x - b.x, y: a.y - b.y });
const times = (a: XY, by: number): XY => ({ x: a.x * by, y: a.y * by });
const dot = (a: XY, b: XY): number => a.x * b.x + a.y * b.y;
