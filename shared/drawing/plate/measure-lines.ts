import { between, direction, plus, turned, type XY } from '../../geometry/vector.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import { all, WEIGHT, type DrawingContext } from '../drawing-context.ts';
import type { SceneNode } from '../scene.ts';

/** How one measure stands on the foot: its lines, and the place its leader starts from. */
export interface DrawnMeasure {
  readonly nodes: readonly SceneNode[];
  readonly anchor: XY;
}

export type Draw = (context: DrawingContext) => DrawnMeasure | null;

export const TO_HEEL: XY = { x: -1, y: 0 };
export const TO_TOE: XY = { x: 1, y: 0 };

function fine(context: DrawingContext, from: XY, to: XY, classes: readonly string[] = []): SceneNode {
  return { kind: 'line', from, to, weight: WEIGHT.measure * context.unit, classes, halo: 'always' };
}

/** A line that only shows where something is measured from. */
function guide(context: DrawingContext, from: XY, to: XY): SceneNode {
  const u = context.unit;
  return {
    kind: 'line',
    from,
    to,
    weight: WEIGHT.fine * u,
    dash: [1.5 * u, 1.1 * u],
    classes: ['guide'],
    halo: 'always',
  };
}

/** The arc between two directions, with a line along each, and the leader at the middle of the arc. */
export function angle(context: DrawingContext, vertex: XY, one: XY, other: XY, radius: number): DrawnMeasure {
  const from = Math.atan2(one.y, one.x);
  let turn = Math.atan2(other.y, other.x) - from;
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn < -Math.PI) turn += 2 * Math.PI;
  const middle = from + turn / 2;
  return {
    nodes: [
      guide(context, vertex, plus(vertex, one, radius * 1.12)),
      fine(context, vertex, plus(vertex, other, radius * 1.12)),
      {
        kind: 'arc',
        centre: vertex,
        radius,
        from,
        to: from + turn,
        weight: WEIGHT.measure * 1.5 * context.unit,
        classes: ['sweep'],
        halo: 'always',
      },
    ],
    anchor: { x: vertex.x + radius * Math.cos(middle), y: vertex.y + radius * Math.sin(middle) },
  };
}

/** A distance, with a small bar across each end. */
export function span(context: DrawingContext, a: XY, b: XY, guides: readonly (readonly [XY, XY])[] = []): DrawnMeasure {
  const way = direction(a, b) ?? { x: 0, y: 1 };
  const bar = turned(way);
  const half = 1.5 * context.unit;
  return {
    nodes: [
      ...guides.map(([from, to]) => guide(context, from, to)),
      fine(context, a, b, ['span']),
      fine(context, plus(a, bar, -half), plus(a, bar, half)),
      fine(context, plus(b, bar, -half), plus(b, bar, half)),
    ],
    anchor: between(a, b, 0.5),
  };
}

/** How far apart two points are in height, drawn on an upright beside them. */
export function height(context: DrawingContext, upper: XY, lower: XY, x: number): DrawnMeasure {
  const a = { x, y: upper.y };
  const b = { x, y: lower.y };
  const past = Math.sign(x - (upper.x + lower.x) / 2) * 1.5 * context.unit;
  return span(context, a, b, [
    [upper, { x: x + past, y: upper.y }],
    [lower, { x: x + past, y: lower.y }],
  ]);
}

/** How far apart two points are along the ground, drawn on a line below it. */
export function reach(context: DrawingContext, a: XY, b: XY, y: number): DrawnMeasure {
  return span(context, { x: a.x, y }, { x: b.x, y }, [
    [a, { x: a.x, y }],
    [b, { x: b.x, y }],
  ]);
}

/** The distance of two landmarks, straight from one to the other. */
export function between2(a: LandmarkName, b: LandmarkName): Draw {
  return (context) => {
    const ends = all(context, a, b);
    return ends && span(context, ends[0], ends[1]);
  };
}
