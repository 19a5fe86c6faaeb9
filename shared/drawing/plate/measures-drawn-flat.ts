import type { FlatMeasureName } from '../../measures/names.ts';
import { between, direction, distance, type XY } from '../../geometry/vector.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import { all, type DrawingContext } from '../drawing-context.ts';
import { angle, between2, reach, span, type Draw } from './measure-lines.ts';

/** How measures from in front (X to the outer side, Y up) and from below (X to the toe) stand on the foot. */

const OUTWARDS: XY = { x: 1, y: 0 };
const INWARDS: XY = { x: -1, y: 0 };

/** How a line from the inner to the outer side tilts, the angle opening over so much of it. */
function tiltOf(inner: LandmarkName, outer: LandmarkName, share: number): Draw {
  return (context) => {
    const ends = all(context, inner, outer);
    const way = ends && direction(ends[0], ends[1]);
    return ends && way && angle(context, ends[0], OUTWARDS, way, share * distance(ends[0], ends[1]));
  };
}

/** The angle within the foot at the lower end of a wall. */
function wallFrom(ground: LandmarkName, hairline: LandmarkName, inwards: XY): Draw {
  return (context) => {
    const ends = all(context, ground, hairline);
    const way = ends && direction(ends[0], ends[1]);
    return ends && way && angle(context, ends[0], inwards, way, 14 * context.unit);
  };
}

const aboveGround =
  (name: LandmarkName): Draw =>
  (context) => {
    const place = context.at(name);
    return place && context.axes.grounded ? span(context, place, { x: place.x, y: 0 }) : null;
  };

/** One row a measure; `null` where it gets its label in the margin and no lines. */
export const flatRows: Readonly<Record<FlatMeasureName, Draw | null>> = {
  'p3-tilt': tiltOf('p3.medial', 'p3.lateral', 0.8),
  'joint-tilt': tiltOf('joint.medial', 'joint.lateral', 0.6),
  'coronet-tilt': tiltOf('coronet.medial', 'coronet.lateral', 0.3),
  'wall-angle.medial': wallFrom('wall.medial', 'coronet.medial', OUTWARDS),
  'wall-angle.lateral': wallFrom('wall.lateral', 'coronet.lateral', INWARDS),
  'sole-depth.medial': aboveGround('p3.medial'),
  'sole-depth.lateral': aboveGround('p3.lateral'),
  'ground-width': (context: DrawingContext) => {
    const ends = all(context, 'wall.medial', 'wall.lateral');
    return ends && reach(context, ends[0], ends[1], -6 * context.unit);
  },

  'sole-length': (context: DrawingContext) => {
    const toe = context.at('toe');
    if (!toe || context.axes.lack !== null) return null;
    // Led to before the frog, where the foot is empty.
    return { ...span(context, { x: 0, y: 0 }, { x: toe.x, y: 0 }), anchor: { x: 0.85 * toe.x, y: 0 } };
  },
  'sole-width': (context: DrawingContext) => {
    const ends = all(context, 'wide.medial', 'wide.lateral');
    return ends && { ...span(context, ends[0], ends[1]), anchor: between(ends[0], ends[1], 0.2) };
  },
  'heel-width': between2('heel.medial', 'heel.lateral'),
  'frog-width': between2('frog.medial', 'frog.lateral'),
  'frog-length': between2('frog.apex', 'frog.base'),

  // Shares of lengths that are drawn already.
  'width-share': null,
  'heel-frog-share': null,
  'toe-split': null,
  'frog-place': null,
};
