import type { LateralMeasureName } from '../../measures/names.ts';
import { between, direction, distance, dot, meet, minus, plus, turned, type XY } from '../../geometry/vector.ts';
import {
  angle,
  between2,
  height,
  reach,
  span,
  TO_HEEL,
  TO_TOE,
  type Draw,
  type DrawnMeasure,
} from './measure-lines.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import { hatchInside } from '../hatch.ts';
import type { SceneNode } from '../scene.ts';
import { flatRows } from './measures-drawn-flat.ts';
import { all, some, type DrawingContext } from '../drawing-context.ts';

/** A length along the wall, set off from it so that the wall stays clear. */
function besideWall(context: DrawingContext, a: XY, b: XY, offset: number): DrawnMeasure {
  const way = direction(a, b) ?? { x: 0, y: -1 };
  const out = turned(way).x >= 0 ? turned(way) : turned(turned(turned(way)));
  const shift = offset * context.unit;
  return span(context, plus(a, out, shift), plus(b, out, shift), [
    [a, plus(a, out, shift)],
    [b, plus(b, out, shift)],
  ]);
}

function slope(
  distal: LandmarkName,
  proximal: LandmarkName,
  radius: number,
  vertexOf?: (s: DrawingContext, way: XY) => XY | null,
): Draw {
  return (context) => {
    const ends = all(context, distal, proximal);
    const way = ends && direction(ends[0], ends[1]);
    if (!ends || !way) return null;
    const vertex = vertexOf?.(context, way) ?? ends[0];
    const near = distance(vertex, ends[0]) < 45 * context.unit ? vertex : ends[0];
    return angle(context, near, TO_HEEL, way, radius * context.unit);
  };
}

/** From a place on the dorsal face of P3 straight out to the line through two points. */
function outFromBone(share: number, upper: LandmarkName, lower: LandmarkName): Draw {
  return (context) => {
    const points = all(context, 'p3.dorsal.upper', 'p3.dorsal.lower', upper, lower);
    if (!points) return null;
    const [top, bottom, a, b] = points;
    const face = direction(bottom, top);
    const wall = direction(b, a);
    if (!face || !wall) return null;
    const start = between(top, bottom, share);
    const end = meet(start, turned(face), a, wall);
    return end ? span(context, start, end) : null;
  };
}

/** The angle two lines make with one another, both carried to one place. */
function divergence(
  vertex: LandmarkName,
  one: readonly [LandmarkName, LandmarkName],
  other: readonly [LandmarkName, LandmarkName],
  radius: number,
): Draw {
  return (context) => {
    const points = all(context, vertex, one[0], one[1], other[0], other[1]);
    if (!points) return null;
    const [at, a, b, c, d] = points;
    const first = direction(a, b);
    const second = direction(c, d);
    return first && second ? angle(context, at, first, second, radius * context.unit) : null;
  };
}

/** On the ground, or where two names stand above one another: the depth of one below the other. */
function depth(upper: LandmarkName, lower: LandmarkName): Draw {
  return (context) => {
    const ends = all(context, upper, lower);
    if (!ends) return null;
    const u = context.unit;
    const x = ends[0].x;
    return span(context, ends[0], { x, y: ends[1].y }, [
      [
        { x: Math.min(x, ends[1].x) - 2.5 * u, y: ends[1].y },
        { x: Math.max(x, ends[1].x) + 2.5 * u, y: ends[1].y },
      ],
    ]);
  };
}

/** The most dorsal of the coronet's landmarks, so that heights measured there stand clear of the wall. */
function beforeCoronet(context: DrawingContext, clear: number): number {
  const xs = some(context, 'coronet.dorsal', 'wall.top', 'p3.extensor').map(({ x }) => x);
  return Math.max(...xs) + clear * context.unit;
}

function solarAngle(context: DrawingContext): DrawnMeasure | null {
  const ends = all(context, 'p3.tip', 'p3.wing');
  const way = ends && direction(ends[0], ends[1]);
  if (!ends || !way) return null;
  return angle(context, ends[0], TO_HEEL, way, distance(ends[0], ends[1]) * 0.82);
}

const lowerEnd =
  (line: LandmarkName, y: 'ground' | 'tip') =>
  (context: DrawingContext, way: XY): XY | null => {
    const on = context.at(line);
    const level = y === 'tip' ? context.at('p3.tip') : { x: 0, y: 0 };
    return on && level && (y === 'tip' || context.axes.grounded) ? meet(on, way, level, TO_TOE) : null;
  };

const underContact =
  (contact: LandmarkName): Draw =>
  (context) => {
    const at = context.at(contact);
    return at && context.groundAt ? span(context, { x: at.x, y: 0 }, { x: at.x, y: context.groundAt(at.x) }) : null;
  };

const wallToBone = divergence(
  'p3.dorsal.lower',
  ['wall.lower', 'wall.upper'],
  ['p3.dorsal.lower', 'p3.dorsal.upper'],
  27,
);

/**
 * By how much the layer before the bone is thicker below than above, as the wedge it is: what lies between the bone's face and a
 * line along the wall from the upper end of that face. Null where the two are parallel.
 */
function wedgeBeforeBone(context: DrawingContext): SceneNode | null {
  const points = all(context, 'p3.dorsal.upper', 'p3.dorsal.lower', 'wall.upper', 'wall.lower');
  if (!points) return null;
  const [top, bottom, a, b] = points;
  const face = direction(bottom, top);
  const wall = direction(b, a);
  const end = face && wall && meet(bottom, turned(face), top, wall);
  if (!wall || !end || distance(bottom, end) < 0.5 * context.unit) return null;
  const u = context.unit;
  const segments = hatchInside([top, bottom, end], turned(wall), 0.9 * u, 0.42 * u, () => 0.75, 5);
  return { kind: 'path', segments, classes: ['wedge-hatch'] };
}

/** One row a measure; `null` where it gets its label in the margin and no lines. */
const rows: Readonly<Record<LateralMeasureName, Draw | null>> = {
  'wall-angle': slope('wall.lower', 'wall.upper', 15, lowerEnd('wall.lower', 'ground')),
  'bone-angle': slope('p3.dorsal.lower', 'p3.dorsal.upper', 21, lowerEnd('p3.dorsal.lower', 'tip')),
  'palmar-angle': solarAngle,
  'heel-angle': slope('heel.ground', 'heel.upper', 12),
  'coronet-angle': (context) => {
    const ends = all(context, 'coronet.heel', 'coronet.dorsal');
    const way = ends && direction(ends[0], ends[1]);
    return ends && way && angle(context, ends[0], TO_TOE, way, distance(ends[0], ends[1]) * 0.3);
  },
  'middle-angle': slope('coffin.centre', 'pastern.centre', 27),
  'axis-angle': slope('coffin.centre', 'fetlock.centre', 35),
  'capsular-rotation': (context) => {
    const angle = wallToBone(context);
    const wedge = wedgeBeforeBone(context);
    return angle && wedge ? { ...angle, nodes: [wedge, ...angle.nodes] } : angle;
  },
  'phalangeal-rotation': divergence(
    'coffin.centre',
    ['coffin.centre', 'pastern.centre'],
    ['p3.dorsal.lower', 'p3.dorsal.upper'],
    31,
  ),
  'hoof-pastern-deviation': (context) =>
    divergence(
      'coffin.centre',
      ['coffin.centre', context.at('fetlock.centre') ? 'fetlock.centre' : 'pastern.centre'],
      ['wall.lower', 'wall.upper'],
      39,
    )(context),
  'toe-heel-difference': divergence('heel.ground', ['wall.lower', 'wall.upper'], ['heel.ground', 'heel.upper'], 19),

  'founder-distance': (context) => {
    const ends = all(context, 'wall.top', 'p3.extensor');
    return ends && height(context, ends[0], ends[1], beforeCoronet(context, 8));
  },
  'coronet-extensor': (context) => {
    const ends = all(context, 'coronet.dorsal', 'p3.extensor');
    return ends && height(context, ends[0], ends[1], beforeCoronet(context, 14));
  },
  'sole-depth.tip': depth('p3.tip', 'sole.tip'),
  'sole-depth.wing': depth('p3.wing', 'sole.wing'),
  'cup.tip': (context) => {
    const sole = context.at('sole.tip');
    return sole && context.axes.grounded ? span(context, sole, { x: sole.x, y: 0 }) : null;
  },
  'horn-lamellar.upper': outFromBone(0, 'wall.upper', 'wall.lower'),
  'horn-lamellar.middle': outFromBone(0.5, 'wall.upper', 'wall.lower'),
  'horn-lamellar.lower': outFromBone(1, 'wall.upper', 'wall.lower'),
  'horn-lamellar-share': outFromBone(0.5, 'wall.upper', 'wall.lower'),
  'lamellar-zone.upper': outFromBone(0, 'wall.inner.upper', 'wall.inner.lower'),
  'lamellar-zone.middle': outFromBone(0.5, 'wall.inner.upper', 'wall.inner.lower'),
  'lamellar-zone.lower': outFromBone(1, 'wall.inner.upper', 'wall.inner.lower'),
  'lamellar-share': outFromBone(0.5, 'wall.inner.upper', 'wall.inner.lower'),
  'cortex-length': between2('p3.tip', 'p3.navicular'),
  'heel-height': (context) => {
    const ends = all(context, 'coronet.heel', 'heel.ground');
    return ends && height(context, ends[0], ends[1], Math.min(ends[0].x, ends[1].x) - 9 * context.unit);
  },
  'heel-surplus': (context) => {
    const ends = all(context, 'sole.heel', 'heel.ground');
    return ends && height(context, ends[0], ends[1], Math.min(ends[0].x, ends[1].x) - 4 * context.unit);
  },
  'toe-length': (context) => {
    const ends = all(context, 'coronet.dorsal', 'toe.ground');
    return ends && besideWall(context, ends[0], ends[1], 9);
  },
  'grown-out': (context) => {
    const ends = all(context, 'coronet.dorsal', 'wall.turn');
    return ends && besideWall(context, ends[0], ends[1], 4.5);
  },
  'grown-out-share': (context) => {
    const ends = all(context, 'coronet.dorsal', 'wall.turn');
    return ends && besideWall(context, ends[0], ends[1], 4.5);
  },
  'bearing-length': (context) => {
    const ends = all(context, 'toe.ground', 'heel.ground');
    return ends && reach(context, ends[0], ends[1], -8 * context.unit);
  },
  'breakover-reach': (context) => {
    const ends = all(context, 'breakover', 'p3.tip');
    return ends && reach(context, ends[0], ends[1], -12.5 * context.unit);
  },
  'toe-share': (context) => {
    const ends = all(context, 'toe.ground', 'coffin.centre');
    return ends && reach(context, ends[0], ends[1], -17 * context.unit);
  },
  'shoe-thickness.toe': underContact('toe.ground'),
  'shoe-thickness.heel': underContact('heel.ground'),
  'coronet-navicular': (context) => {
    const points = all(context, 'navicular.upper', 'coronet.dorsal', 'coronet.heel');
    const way = points && direction(points[2], points[1]);
    if (!points || !way) return null;
    const [navicular, , heel] = points;
    return span(context, navicular, plus(heel, way, dot(minus(navicular, heel), way)));
  },
  'phalanx-ratio': (context) => {
    const points = all(context, 'coffin.centre', 'pastern.centre', 'fetlock.centre');
    if (!points) return null;
    const short = span(context, points[0], points[1]);
    const long = span(context, points[1], points[2]);
    return { nodes: [...short.nodes, ...long.nodes], anchor: long.anchor };
  },

  // Told by numbers alone: the same two places are drawn already, or what is drawn would be a line along the bone.
  'founder-distance.level': null,
  'coronet-extensor.level': null,
  'p3-length': null,
  'p3-back': null,
  'p2-length': null,
  'shoe-wedge': null,
  'palmar-angle.bearing': null,
};

/** The measures that are drawn, of every view, by name: a label may have any name. */
export const DRAWN: ReadonlyMap<string, Draw> = new Map(
  Object.entries({ ...rows, ...flatRows }).flatMap(([name, draw]) => (draw ? [[name, draw] as const] : [])),
);
