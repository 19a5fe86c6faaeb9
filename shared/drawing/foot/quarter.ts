import { between, distance, minus, type XY } from '../../geometry/vector.ts';
import { along, flatten, straight } from '../curve.ts';
import { chance } from '../hatch.ts';
import { edge, fade, hairline, texture } from './horn-ink.ts';
import { group, type GroupNode, type SceneNode, type PathSegment } from '../scene.ts';
import { all, contourWeight, type DrawingContext } from '../drawing-context.ts';
import { soleLine } from './sole.ts';

/**
 * The side of the wall between toe and heel, seen beyond the section: tubules that run out below the hairline, and
 * the inside of the wall in the hollow under the sole.
 */
export function quarter(context: DrawingContext): GroupNode | null {
  const ends = all(context, 'coronet.dorsal', 'toe.ground', 'coronet.heel', 'heel.ground');
  if (!ends) return null;
  const [cd, tg, ch, hg] = ends;
  const u = context.unit;
  if (distance(cd, ch) < u || distance(tg, hg) < u) return null;
  const above: PathSegment[] = [];
  const below: PathSegment[] = [];
  const hair = hairline(cd, ch, u);
  const vault = soleLine(context)?.line;
  const roof = vault && flatten(vault);
  const count = context.bare ? 0 : Math.min(Math.max(Math.round(distance(tg, hg) / (1.7 * u)), 6), 80);
  for (let i = 0; i < count; i += 1) {
    const share = 0.06 + (0.9 * (i + 0.5 + (chance(17, i) - 0.5) * 0.4)) / count;
    const top = along(hair, share);
    const bottom = between(tg, hg, share);
    const span = Math.max(distance(top, bottom), u);
    const down = Math.min(((4 + 6 * chance(19, i)) * u) / span, 0.45);
    if (!context.onPicture || share < 0.14 || share > 0.86)
      above.push(...fade(top, between(top, bottom, down), 0.6, u));
    const full = Math.min((30 * u) / span, 0.6);
    const up = roof ? reachOf(bottom, top, roof, full) : Math.min(((2.5 + 4.5 * chance(23, i)) * u) / span, 0.45);
    if (up * span > 0.8 * u) below.push(...fade(bottom, between(bottom, top, up), roof ? 0.42 : 0.75, u));
  }
  const marks: SceneNode[] = [
    texture([...above, ...below], 'horn.quarter'),
    edge(straight([tg, hg]), contourWeight(context), 'wall.ground'),
  ];
  return group(['horn-part', 'quarter'], marks, { part: 'horn.quarter', layer: 'capsule' });
}

/** How far up a line from the ground may be drawn before it meets the sole. */
function reachOf(from: XY, to: XY, roof: readonly XY[], most: number): number {
  let least = most;
  for (let i = 1; i < roof.length; i += 1) {
    const a = roof[i - 1]!;
    const b = roof[i]!;
    const d = minus(to, from);
    const e = minus(b, a);
    const turn = d.x * e.y - d.y * e.x;
    if (Math.abs(turn) < 1e-9) continue;
    const w = minus(a, from);
    const t = (w.x * e.y - w.y * e.x) / turn;
    const s = (w.x * d.y - w.y * d.x) / turn;
    if (s >= 0 && s <= 1 && t >= 0) least = Math.min(least, t * 0.97);
  }
  const clear = roof.some((p) => p.x < from.x) && roof.some((p) => p.x > from.x);
  return clear ? least : 0;
}
