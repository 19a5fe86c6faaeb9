import { footAxes, intoFrame, lineOf, placedIn, type FootAxes } from '../geometry/foot-axes.ts';
import type { XY } from '../geometry/vector.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';
import type { LandmarkPositions } from './places.ts';

/** What every part of the drawing works from: landmarks in the foot's own frame, and the size of the foot. */
export interface DrawingContext {
  readonly axes: FootAxes;
  /** One millimetre of this foot, near enough for line weights and the parts no landmark fixes. */
  readonly unit: number;
  readonly onPicture: boolean;
  /** Contours without texture: while a landmark is dragged there is no time for engraving. */
  readonly bare?: boolean;
  readonly at: (name: LandmarkName) => XY | undefined;
  /** The ends of the bearing plane, where it is placed apart from the ground. */
  readonly bearing: readonly [XY, XY] | null;
  /** How high the ground lies at an X, below 0 under a shoe; null where it is Y = 0 itself, or not placed. */
  readonly groundAt: ((x: number) => number) | null;
}

/** The lines that a foot stands on, on its picture. */
export interface StandingLines {
  readonly ground: readonly [XY, XY] | null;
  /** The plane between hoof and shoe. */
  readonly bearing?: readonly [XY, XY] | null;
}

/** Laid along the bearing plane of the foot; places and lines are those on its picture. */
export function drawingContext(
  places: LandmarkPositions,
  { ground, bearing = null }: StandingLines,
  rest: Pick<DrawingContext, 'unit' | 'onPicture' | 'bare'>,
  view: View = 'lateral',
): DrawingContext {
  const axes = footAxes(view, placedIn(places), lineOf({ bearing, ground }));
  const framed = (line: readonly [XY, XY]): readonly [XY, XY] => [intoFrame(axes, line[0]), intoFrame(axes, line[1])];
  return {
    ...rest,
    axes,
    bearing: bearing && framed(bearing),
    groundAt: bearing && ground && heightAlong(framed(ground)),
    at: (name) => {
      const place = places.get(name);
      return place && intoFrame(axes, place);
    },
  };
}

/** Null for a line that stands upright: no foot stands on it. */
function heightAlong([from, to]: readonly [XY, XY]): ((x: number) => number) | null {
  const run = to.x - from.x;
  return run === 0 ? null : (x) => from.y + ((x - from.x) * (to.y - from.y)) / run;
}

/** All of the named landmarks, or null if one is missing: a part is drawn whole or not at all. */
export function all<const N extends readonly LandmarkName[]>(
  context: DrawingContext,
  ...names: N
): { [K in keyof N]: XY } | null {
  const found: XY[] = [];
  for (const name of names) {
    const p = context.at(name);
    if (!p) return null;
    found.push(p);
  }
  return found as { [K in keyof N]: XY };
}

export function some(context: DrawingContext, ...names: LandmarkName[]): XY[] {
  return names.flatMap((name) => context.at(name) ?? []);
}

/** Line weights in millimetres of the foot. */
export const WEIGHT = {
  outline: 0.62,
  inner: 0.28,
  hatch: 0.5,
  horn: 0.46,
  strand: 0.5,
  fine: 0.26,
  measure: 0.34,
  ground: 1.5,
} as const;

/** Over a film the contour is finer: it has a halo to stand out by, and the film is what is looked at. */
export function contourWeight(context: DrawingContext): number {
  return WEIGHT.outline * context.unit * (context.onPicture ? 0.72 : 1);
}
