import { between, distance, plus, type XY } from '../../geometry/vector.ts';
import { along, corner, flatten, smooth, type Knot } from '../curve.ts';
import { stipple, type Tone } from '../hatch.ts';
import { edge } from './horn-ink.ts';
import { group, type GroupNode, type SceneNode, type PathSegment } from '../scene.ts';
import { all, contourWeight, some, type DrawingContext } from '../drawing-context.ts';

/** The ground side of the sole, from the inside of the toe wall to the heel. */
export function soleLine(context: DrawingContext): { line: PathSegment[]; fromToe: boolean } | null {
  const u = context.unit;
  const under = some(context, 'sole.tip', 'sole.wing', 'sole.heel').sort((a, b) => b.x - a.x);
  if (under.length < 2) return null;
  const knots: Knot[] = [...under];
  const toe = context.at('toe.ground');
  const first = under[0]!;
  const fromToe = context.at('sole.tip') !== undefined && toe !== undefined && toe.x - first.x > 8 * u;
  if (fromToe) {
    const inner = plus(toe, { x: -1, y: 0 }, Math.min(9 * u, (toe.x - first.x) * 0.4));
    knots.unshift(inner, plus(between(inner, first, 0.55), { x: 0, y: 1 }, Math.max(first.y - inner.y, 0) * 0.28));
  }
  const heel = context.at('heel.ground');
  const last = under[under.length - 1]!;
  if (heel && last.x - heel.x > 3 * u) {
    // Heel standing well beyond the sole drops from it as a step.
    if (last.y - heel.y > 5 * u) knots[knots.length - 1] = corner(last);
    knots.push(plus(heel, { x: 1, y: 0 }, Math.min(4 * u, (last.x - heel.x) * 0.5)));
  }
  return { line: smooth(knots, false), fromToe };
}

/** The sole between its ground side and the margin of the bone, stippled denser downwards. */
export function sole(context: DrawingContext): GroupNode | null {
  const u = context.unit;
  const found = soleLine(context);
  if (!found) return null;
  const lower = flatten(found.line);
  if (lower.length < 2) return null;
  const marks: SceneNode[] = [];
  const roof = all(context, 'p3.tip', 'p3.wing');
  if (roof && !context.bare) {
    const [tip, wing] = roof;
    const upper: XY[] = [];
    const begin = lower[0]!;
    if (found.fromToe && begin.x > tip.x) upper.push(plus(between(begin, tip, 0.7), { x: 0, y: 1 }, u));
    upper.push(tip, wing);
    const end = lower[lower.length - 1]!;
    const region = [...lower, ...(end.x < wing.x ? [plus(end, { x: 0, y: 1 }, 2 * u)] : []), ...upper.reverse()];
    const depth = Math.max(distance(between(tip, wing, 0.5), along(lower, 0.5)), 2 * u);
    const tone: Tone = (_x, _y, p) => {
      let near = Infinity;
      for (const q of lower) near = Math.min(near, distance(p, q));
      return Math.max(0, 1.05 - (near / depth) * 1.3) ** 1.2;
    };
    marks.push(...stipple(region, 1.15 * u, 0.56 * u, tone, 7));
  }
  marks.push(edge(found.line, contourWeight(context) * 0.8, 'sole'));
  return group(['sole-part'], marks, { part: 'sole', layer: 'capsule' });
}
