import { AMONG_EQUALS } from './among-equals.ts';
import { footAxes, lineOf, placedIn, type FootAxes } from '../geometry/foot-axes.ts';
import { spreadInPixels, type FootInput } from '../geometry/foot-input.ts';
import { cross, direction, dot, minus, type XY } from '../geometry/vector.ts';
import type { MeasureName } from '../measures/names.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { landmarksOf, lateralLandmark, type LandmarkName } from '../notation/landmarks.ts';
import type { StudiedReading } from '../trim/study.ts';

/**
 * How far a student's place lies from the key's. A landmark that lies anywhere on a straight line with its partner is held against that
 * line: along it one place is as right as another.
 */
export interface MarkedPoint {
  readonly landmark: LandmarkName;
  /** In `unit`; null where the student has not placed it. */
  readonly off: PointOff | null;
  /** What lies no further off than this agrees with the key. */
  readonly tolerance: number;
  readonly unit: 'mm' | 'px';
  readonly agrees: boolean;
}

export interface PointOff {
  readonly distance: number;
  /** To the toe and up, in the key's foot; null where the key does not say how the foot lies. */
  readonly toToe: number | null;
  readonly up: number | null;
}

export interface MarkedMeasure {
  readonly measure: MeasureName;
  readonly unit: MeasureUnit;
  readonly key: number;
  /** Null where the student's places do not give it. */
  readonly student: number | null;
  readonly tolerance: number;
  readonly agrees: boolean;
}

/** One reading held against the key's of the same picture. */
export interface MarkedReading {
  readonly points: readonly MarkedPoint[];
  /** What the student has placed and the key has not. */
  readonly beyondKey: readonly LandmarkName[];
  readonly measures: readonly MarkedMeasure[];
  /** The student's ground line against the key's, degrees, counter-clockwise as on the screen; null where one lacks it. */
  readonly groundTurned: number | null;
  /** The student's scale as a multiple of the key's; null where one has none. */
  readonly scaleRatio: number | null;
  /** The plane between hoof and shoe; null where one has none. */
  readonly bearing: MarkedBearing | null;
  /** What the key has and the student has not. */
  readonly unplaced: readonly PlacedLine[];
}

export type PlacedLine = 'scale' | 'ground' | 'bearing';

/** A student's bearing plane against the key's. */
export interface MarkedBearing {
  /** Degrees, as for the ground line. */
  readonly turned: number;
  /** How far its middle lies above the key's line, in the unit of the points; below 0 where under it. */
  readonly up: number;
  /** What lies no further off than this agrees. */
  readonly tolerance: number;
}

/**
 * What a student's reading says against the key's of the same picture, point by point and measure by measure. Distances in mm by the
 * key's scale, in pixels where it has none. `tolerance`, mm: for points of which the key writes no `+-`; without it that of a
 * hand as the case assumes it.
 */
export function markedReading(key: StudiedReading, student: StudiedReading, tolerance: number | null): MarkedReading {
  const [ours, theirs] = [key.input, student.input];
  const { scale } = key.taking;
  const places = new Map(ours.landmarks.map(({ name, x, y }) => [name, { x, y }] as const));
  const axes = footAxes(ours.view, placedIn(places), lineOf(ours));
  const order = landmarksOf(ours.view).map(({ word }): LandmarkName => word);
  const inOrder = (a: LandmarkName, b: LandmarkName): number => order.indexOf(a) - order.indexOf(b);
  const usual = spreadInPixels(ours, scale);
  const points = ours.landmarks
    .toSorted((a, b) => inOrder(a.name, b.name))
    .map((point): MarkedPoint => {
      const mine = theirs.landmarks.find(({ name }) => name === point.name);
      const size = scale ?? 1;
      const given = point.spread === null && tolerance !== null && scale !== null ? tolerance : null;
      const allowed = given ?? AMONG_EQUALS * (point.spread ?? usual) * size;
      const off = mine ? pointOff(offTheLine(minus(mine, point), point.name, places), axes, size) : null;
      return {
        landmark: point.name,
        off,
        tolerance: allowed,
        unit: scale === null ? 'px' : 'mm',
        agrees: off !== null && off.distance <= allowed,
      };
    });
  return {
    points,
    beyondKey: theirs.landmarks
      .map(({ name }) => name)
      .filter((name) => !places.has(name))
      .toSorted(inOrder),
    measures: [...key.taking.values.values()].map(({ measure, unit, value, sd }) => {
      const found = student.taking.values.get(measure.name)?.value ?? null;
      const allowed = AMONG_EQUALS * sd;
      return {
        measure: measure.name,
        unit,
        key: value,
        student: found,
        tolerance: allowed,
        agrees: found !== null && Math.abs(found - value) <= allowed,
      };
    }),
    groundTurned: turned(ours.ground, theirs.ground),
    scaleRatio: scale === null || student.taking.scale === null ? null : student.taking.scale / scale,
    bearing: markedBearing(ours.bearing, theirs.bearing, { size: scale ?? 1, usual }),
    unplaced: [
      ...(scale !== null && theirs.scale === null ? (['scale'] as const) : []),
      ...(ours.ground && !theirs.ground ? (['ground'] as const) : []),
      ...(ours.bearing && !theirs.bearing ? (['bearing'] as const) : []),
    ],
  };
}

/** `size`: of a pixel; `usual`: how well a hand places, px. */
function markedBearing(
  key: FootInput['bearing'],
  mine: FootInput['bearing'],
  { size, usual }: { readonly size: number; readonly usual: number },
): MarkedBearing | null {
  const angle = turned(key, mine);
  if (!key || !mine || angle === null) return null;
  const [from, to] = key[0].x <= key[1].x ? key : [key[1], key[0]];
  const along = direction(from, to);
  if (!along) return null;
  const middle = { x: (mine[0].x + mine[1].x) / 2, y: (mine[0].y + mine[1].y) / 2 };
  // y runs downwards: what lies above a line from left to right is on its negative side.
  const up = -cross(along, minus(middle, from)) * size;
  return { turned: angle, up, tolerance: AMONG_EQUALS * usual * size };
}

/** What of a way lies across the line that a landmark is on; all of it for one that is a point by itself. */
export function offTheLine(way: XY, name: LandmarkName, places: ReadonlyMap<LandmarkName, XY>): XY {
  const proposed = lateralLandmark(name)?.proposed;
  const [from, to] = [places.get(name), proposed?.by === 'line' ? places.get(proposed.partner) : undefined];
  const along = from && to ? direction(from, to) : null;
  if (!along) return way;
  const far = dot(way, along);
  return { x: way.x - far * along.x, y: way.y - far * along.y };
}

function pointOff(way: XY, { u, v, lack }: FootAxes, size: number): PointOff {
  const told = lack === null;
  return {
    distance: Math.hypot(way.x, way.y) * size,
    toToe: told ? dot(way, u) * size : null,
    up: told ? dot(way, v) * size : null,
  };
}

/** Of two lines, whichever end of each was written first; degrees, from -90 to 90. */
function turned(key: readonly [XY, XY] | null, mine: readonly [XY, XY] | null): number | null {
  if (!key || !mine) return null;
  const [a, b] = [minus(key[1], key[0]), minus(mine[1], mine[0])];
  const way = dot(a, b) < 0 ? { x: -b.x, y: -b.y } : b;
  // y runs downwards, so that what turns counter-clockwise on the screen has a negative cross product.
  return (-Math.atan2(cross(a, way), dot(a, way)) * 180) / Math.PI;
}
