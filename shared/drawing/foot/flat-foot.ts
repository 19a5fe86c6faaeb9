import type { XY } from '../../geometry/vector.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import { nodeOntoImage } from '../carried.ts';
import { smooth, straight } from '../curve.ts';
import { drawingContext, some, contourWeight, type DrawingContext, type StandingLines } from '../drawing-context.ts';
import type { LandmarkPositions } from '../places.ts';
import { sound } from '../sound.ts';
import type { LayerName, PathNode, PathSegment, SceneNode } from '../scene.ts';

/** A foot seen from in front or from below: its outlines, as far as they are placed. */
export interface FlatFoot {
  /** Along the bearing plane; from below along the axis of the foot. */
  readonly context: DrawingContext;
  /** Along the ground. */
  readonly standing: DrawingContext;
  readonly layers: Partial<Record<LayerName, readonly SceneNode[]>>;
}

interface FlatInput extends StandingLines {
  readonly places: LandmarkPositions;
  readonly unit: number;
  readonly onPicture: boolean;
}

/** In the pixels of its picture. */
export function drawFlatFoot(
  view: 'front' | 'solar',
  { places, ground, bearing = null, unit, onPicture }: FlatInput,
): FlatFoot {
  const context = drawingContext(places, { ground, bearing }, { unit, onPicture }, view);
  const standing = bearing && ground ? drawingContext(places, { ground }, { unit, onPicture }, view) : context;
  const lines = (ways: readonly (readonly PathSegment[])[]): SceneNode[] =>
    sound(
      ways.filter((way) => way.length > 1).map((segments) => nodeOntoImage(context.axes, contour(context, segments))),
    );
  const layers =
    view === 'front'
      ? { capsule: lines(wallsInFront(context)), bones: lines(boneInFront(context)) }
      : { capsule: lines(sole(context)) };
  return { context, standing, layers };
}

const contour = (context: DrawingContext, segments: readonly PathSegment[]): PathNode => ({
  kind: 'path',
  segments,
  weight: contourWeight(context),
  classes: ['outline'],
  halo: 'film',
});

const joined = (context: DrawingContext, ...names: LandmarkName[]): PathSegment[] => {
  const points = some(context, ...names);
  return points.length === names.length ? straight(points, false) : [];
};

function wallsInFront(context: DrawingContext): PathSegment[][] {
  return [
    joined(context, 'wall.medial', 'coronet.medial'),
    joined(context, 'wall.lateral', 'coronet.lateral'),
    arched(context, 'coronet.medial', 'coronet.lateral', 0.05),
  ];
}

function boneInFront(context: DrawingContext): PathSegment[][] {
  return [
    arched(context, 'p3.medial', 'p3.lateral', -0.04),
    arched(context, 'joint.medial', 'joint.lateral', 0.03),
    joined(context, 'p3.medial', 'joint.medial'),
    joined(context, 'p3.lateral', 'joint.lateral'),
  ];
}

/** A line from side to side that rises in the middle by a share of its length; sinks where that is negative. */
function arched(context: DrawingContext, inner: LandmarkName, outer: LandmarkName, rise: number): PathSegment[] {
  const [a, b] = some(context, inner, outer);
  if (!a || !b) return [];
  const middle: XY = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 + rise * Math.abs(b.x - a.x) };
  return smooth([a, middle, b], false);
}

function sole(context: DrawingContext): PathSegment[][] {
  const border = some(context, 'heel.medial', 'wide.medial', 'toe', 'wide.lateral', 'heel.lateral');
  const frog = some(context, 'frog.apex', 'frog.medial', 'frog.base', 'frog.lateral');
  return [
    border.length === 5 ? smooth(border, false) : [],
    frog.length === 4 ? straight(frog, true) : [],
    joined(context, 'heel.medial', 'bar.medial'),
    joined(context, 'heel.lateral', 'bar.lateral'),
  ];
}
