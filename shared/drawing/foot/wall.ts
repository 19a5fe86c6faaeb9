import { between, direction, distance, meet, minus, plus, type XY } from '../../geometry/vector.ts';
import { along, corner, flatten, smooth, straight, type Knot } from '../curve.ts';
import { hatchBetween, type Tone } from '../hatch.ts';
import { edge, texture } from './horn-ink.ts';
import { group, type GroupNode, type SceneNode } from '../scene.ts';
import { all, contourWeight, some, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** The outer dorsal wall from the hairline down to the ground, as far as its landmarks reach. */
function dorsalWall(context: DrawingContext): Knot[] {
  const straightPart = some(context, 'wall.top', 'wall.upper', 'wall.turn', 'wall.lower').sort((a, b) => b.y - a.y);
  const top = context.at('coronet.dorsal');
  const toe = context.at('toe.ground');
  const breakover = context.at('breakover');
  const wall: Knot[] = [];
  if (top) wall.push(top);
  wall.push(...straightPart);
  // Where the toe is rolled, the wall leaves the ground behind its most dorsal point.
  const lower = context.at('wall.lower');
  const way = lower && wall.length > 1 ? direction(wall[wall.length - 2]!, lower) : null;
  const reach = toe && lower && way && context.axes.grounded ? meet(lower, way, toe, { x: 1, y: 0 }) : null;
  if (
    toe &&
    lower &&
    reach &&
    reach.x - toe.x > 3 * context.unit &&
    reach.x - toe.x < 25 * context.unit &&
    lower.y > toe.y
  ) {
    // A rolled toe: the wall keeps its line until it rounds under, and does not cut across to the ground.
    const rise = Math.min(lower.y - toe.y, (reach.x - toe.x) * 1.15);
    const share = 1 - rise / (lower.y - toe.y);
    if (share > 0.15) wall.push(between(lower, reach, share));
    wall.push({ x: toe.x + (reach.x - toe.x) * 0.52, y: toe.y + rise * 0.3 });
  }
  if (toe && breakover && breakover.x > toe.x + 0.5 * context.unit) wall.push(breakover);
  if (toe) wall.push(corner(toe));
  return wall;
}

/** The inner edge of the dorsal horn beside a point of the outer wall, where that edge is placed. */
function innerEdge(context: DrawingContext, wall: readonly XY[]): [XY, XY] | null {
  const inner = all(context, 'wall.inner.upper', 'wall.inner.lower');
  const top = wall[0];
  const bottom = wall[wall.length - 1];
  if (!inner || !top || !bottom) return null;
  const way = direction(inner[1], inner[0]);
  if (!way) return null;
  const across = { x: 1, y: 0 };
  const hair = all(context, 'coronet.dorsal', 'coronet.heel');
  const a = meet(inner[0], way, top, hair ? (direction(hair[0], hair[1]) ?? across) : across);
  const b = meet(inner[1], way, bottom, across);
  // Markers far from the wall would stretch the horn over the whole foot; then only the edge itself is drawn.
  const reach = 30 * context.unit;
  return a && b && distance(a, top) < reach && distance(b, bottom) < reach ? [a, b] : null;
}

export function dorsalHorn(context: DrawingContext): GroupNode | null {
  const u = context.unit;
  const wall = dorsalWall(context);
  if (wall.length < 2) return null;
  const line = smooth(wall, false);
  const chain = flatten(line);
  const top = chain[0];
  const bottom = chain[chain.length - 1];
  if (!top || !bottom) return null;
  const slope = direction(bottom, top);
  if (!slope) return null;
  const known = innerEdge(context, chain);
  const lean = Math.max(Math.abs(slope.y), 0.3);
  const hair = all(context, 'coronet.dorsal', 'coronet.heel');
  const back = (hair && direction(hair[0], hair[1])) ?? { x: -1, y: 0 };
  const soft = (10 * u) / lean;
  const a = known?.[0] ?? plus(top, back, soft * 0.8);
  const b = known?.[1] ?? plus(bottom, { x: -1, y: 0 }, soft);
  const count = 24;
  const innerChain: XY[] = [];
  const outerChain: XY[] = [];
  for (let i = 0; i <= count; i += 1) {
    const t = i / count;
    const p = along(chain, t);
    const shift = plus(minus(a, top), minus(minus(b, bottom), minus(a, top)), t);
    outerChain.push(p);
    innerChain.push(plus(p, shift));
  }
  // Tubules stand densest at the outside of the wall; without a placed inner edge they fade out inwards.
  const tone: Tone = (across, t) => {
    const dense = known ? 0.82 - 0.5 * across : 0.95 - 0.98 * across;
    return dense * (0.75 + 0.35 * Math.abs(t - 0.45));
  };
  const width = distance(along(outerChain, 0.5), along(innerChain, 0.5)) * lean;
  const marks: SceneNode[] = [
    texture(
      hatchBetween(
        outerChain,
        innerChain,
        context.bare ? 0 : Math.max(width / (1.05 * u), 3),
        WEIGHT.horn * u,
        tone,
        11,
      ),
      'horn.dorsal',
    ),
  ];
  const inner = all(context, 'wall.inner.upper', 'wall.inner.lower');
  if (known) marks.push(edge(straight([a, b]), WEIGHT.inner * u, 'horn.inner', ['inner']));
  else if (inner) marks.push(edge(straight(inner), WEIGHT.inner * u, 'horn.inner', ['inner']));
  const turn = context.at('wall.turn');
  if (turn) {
    const foot = plus(turn, { x: -1, y: 0 }, 6 * u);
    marks.push(edge(straight([turn, foot]), WEIGHT.inner * u, 'wall.turn', ['inner']));
  }
  marks.push(edge(line, contourWeight(context), 'wall.dorsal'));
  return group(['horn-part'], marks, { part: 'horn.dorsal', layer: 'capsule' });
}

export function heelHorn(context: DrawingContext): GroupNode | null {
  const u = context.unit;
  const heel = some(context, 'coronet.heel', 'heel.upper').sort((a, b) => b.y - a.y);
  const ground = context.at('heel.ground');
  const knots: Knot[] = ground ? [...heel, corner(ground)] : [...heel];
  if (knots.length < 2) return null;
  const line = smooth(knots, false);
  const marks: SceneNode[] = [];
  const chain = flatten(line);
  const lower = all(context, 'heel.upper', 'heel.ground');
  if (lower && !context.bare) {
    const [top, bottom] = lower;
    const outer = [top, between(top, bottom, 0.5), bottom];
    const inner = outer.map((p) => plus(p, { x: 1, y: 0 }, 9 * u));
    const tone: Tone = (across, t) => (0.8 - 0.95 * across) * (0.7 + 0.3 * t);
    marks.push(texture(hatchBetween(outer, inner, 8, WEIGHT.horn * u, tone, 13), 'horn.heel'));
  }
  if (chain.length > 1) marks.push(edge(line, contourWeight(context), 'wall.heel'));
  return group(['horn-part'], marks, { part: 'horn.heel', layer: 'capsule' });
}
