import { hypotenuse, ComputationGraph, type Real } from './real.ts';
import { along, clockwise, midpoint, negated, unit, vector, type Point } from './point.ts';
import {
  footAxes,
  groundRules,
  lineOf,
  type FootAxes,
  type FrameLack,
  type LandmarkPair,
  type PlacedPoints,
} from './foot-axes.ts';
import { middleRatios, plainScale, spreadInPixels, type FootInput } from './foot-input.ts';
import { oddSize, type FootSize } from './foot-size.ts';
import type { XY } from './vector.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';

/**
 * A foot in its own frame (lateral: X along the bearing plane to the toe from below p3.tip, Y up; front: X from medial to
 * lateral; solar: X from between the heels to the toe), in mm where there is a scale and in pixels where there is none. The
 * bearing plane is what the trimmed wall stands on: the ground of a bare foot, the upper side of the shoe of a shod one.
 */
export interface Frame {
  readonly graph: ComputationGraph;
  /** Whether Y = 0 is the bearing plane; a shod foot on whose film it is not placed lies along the ground instead. */
  readonly isOnBearing: boolean;
  /** Where the ground is: Y = 0 itself, or a line below the shoe; null where nobody knows. */
  readonly ground: 'level' | GroundLine | null;
  /** Set where what the foot wears on its film was taken off it. */
  readonly isUnshod?: true;
  /** mm/px, null without a scale. */
  readonly scale: Real | null;
  at(name: LandmarkName): Point | undefined;
  readonly names: readonly LandmarkName[];
}

/** A frame as a film lays it out: it knows where its landmarks were placed. */
export interface FilmFrame extends Frame {
  /**
   * By how much a number that was made in it changes for each unit of the frame that a placing is moved along X and Y of the
   * foot, what else rests on the landmark included. Those on which the number does not rest are left out.
   */
  byPlacing(result: Real): ReadonlyMap<LandmarkName, XY>;
}

/** The ground under a shoe, in the frame of the foot, whose Y = 0 is the bearing plane. */
export interface GroundLine {
  /** A point of it. */
  readonly through: Point;
  /** Of length 1, to the toe (front view: to the outer side). */
  readonly along: Point;
}

export interface FrameResult {
  readonly view: View;
  /** mm/px, a plain number; null without a scale, or with one by which the foot would have an impossible size. */
  readonly scale: number | null;
  /** What is impossible about it; null where nothing is, or there is none. */
  readonly oddSize: FootSize | null;
  /** Null where something is lacking. */
  readonly frame: FilmFrame | null;
  readonly lack: FrameLack | null;
}

/** The input is asked for again whenever the frame is laid out anew, so that nobody has to keep it. It has to be the same each time. */
export function footFrame(given: () => FootInput): FrameResult {
  const graph: ComputationGraph<Laid> = new ComputationGraph((on) => laidOut(on, given()));
  const { view, mmPerPx, oddSize: odd, scale, places, isOnBearing, lack } = graph.laid();
  return { view, scale: mmPerPx, oddSize: odd, frame: places && new LaidFrame(graph, scale, isOnBearing), lack };
}

interface Laid {
  readonly view: View;
  readonly mmPerPx: number | null;
  readonly oddSize: FootSize | null;
  readonly scale: Real | null;
  /** In the frame; null where something is lacking. */
  readonly places: ReadonlyMap<LandmarkName, Point> | null;
  readonly isOnBearing: boolean;
  readonly ground: Frame['ground'];
  readonly lack: FrameLack | null;
  /** In the order in which they were noted: the first numbers of the graph are x and y of each. */
  readonly placed: FootInput['landmarks'];
  /** Null where there are no places. */
  readonly axes: NotedAxes | null;
}

const nowhere: ReadonlyMap<LandmarkName, Point> = new Map();

/** A case holds a frame for each film: its places are kept with the graph's notes, and made again with them. */
class LaidFrame implements FilmFrame {
  readonly graph: ComputationGraph<Laid>;
  readonly scale: Real | null;
  readonly isOnBearing: boolean;

  constructor(graph: ComputationGraph<Laid>, scale: Real | null, isOnBearing: boolean) {
    this.graph = graph;
    this.scale = scale;
    this.isOnBearing = isOnBearing;
  }

  at(name: LandmarkName): Point | undefined {
    return this.places().get(name);
  }

  get names(): readonly LandmarkName[] {
    return [...this.places().keys()];
  }

  get ground(): Frame['ground'] {
    return this.graph.laid().ground;
  }

  byPlacing(result: Real): ReadonlyMap<LandmarkName, XY> {
    const { placed, axes } = this.graph.laid();
    const by = this.graph.derivatives(result);
    const changes = new Map<LandmarkName, XY>();
    if (!axes) return changes;
    const { u, v } = axes;
    // They are as long as a unit of the frame is on the picture.
    const square = u.x.value ** 2 + u.y.value ** 2;
    for (const [index, { name }] of placed.entries()) {
      const x = by[2 * index] ?? 0;
      const y = by[2 * index + 1] ?? 0;
      if (x === 0 && y === 0) continue;
      changes.set(name, {
        x: (x * u.x.value + y * u.y.value) / square,
        y: (x * v.x.value + y * v.y.value) / square,
      });
    }
    return changes;
  }

  private places(): ReadonlyMap<LandmarkName, Point> {
    return this.graph.laid().places ?? nowhere;
  }
}

function laidOut(graph: ComputationGraph, input: FootInput): Laid {
  const { view, landmarks } = input;
  const said = plainScale(input);
  const odd = said === null ? null : oddSize(input, said);
  const mmPerPx = odd ? null : said;
  const usual = spreadInPixels(input, mmPerPx);
  const up: Spotter = ({ x, y }, sd = usual) => ({ x: graph.input(x, sd), y: graph.input(-y, sd) });
  const points = new Map<LandmarkName, Point>();
  // Before anything else, as `byPlacing` counts on it.
  for (const landmark of landmarks) points.set(landmark.name, up(landmark, landmark.spread ?? usual));
  const wing = points.get('p3.wing');
  const other = points.get('p3.wing.other');
  if (wing && other) points.set('p3.wing', midpoint(wing, other));
  const axes = footAxes(view, placedAs(points), lineOf(input));
  const noted = axes.lack === null ? notedAxes(points, input, axes, up) : null;
  const isOnBearing = view === 'solar' || input.bearing !== null || !input.isShod;
  const nothing = { view, mmPerPx, oddSize: odd, isOnBearing, placed: landmarks };
  if (!noted) return { ...nothing, scale: null, places: null, ground: null, lack: axes.lack, axes: null };
  const scale = odd ? null : scaleOf(input, graph, up, points);
  const scaled = scaledBy(noted, scale);
  const ground = groundOf(input, scaled, up);
  framed(points, scaled);
  return { ...nothing, scale, places: points, ground, lack: null, axes: scaled };
}

/** Where the contacts stand in for a line, they do so for the ground of a bare foot alone: a shod one does not stand on them. */
function groundOf({ bearing, ground, isShod }: FootInput, axes: NotedAxes, up: Spotter): Frame['ground'] {
  if (!bearing) return ground || !isShod ? 'level' : null;
  if (!ground) return null;
  const [from, to] = [inFrame(axes, up(ground[0])), inFrame(axes, up(ground[1]))];
  const way = vector(from, to);
  if (way.x.value === 0 && way.y.value === 0) return null;
  const line = unit(way);
  return { through: from, along: line.x.value < 0 ? negated(line) : line };
}

/** A place of the picture as a point with y upwards, with its spread in pixels or the usual one. */
type Spotter = (place: XY, sd?: number) => Point;

/** Only which way the foot lies is asked of them, so nothing is noted. */
function placedAs(points: ReadonlyMap<LandmarkName, Point>): PlacedPoints {
  const onPicture = ({ x, y }: Point): XY => ({ x: x.value, y: -y.value });
  return {
    at: (name) => {
      const point = points.get(name);
      return point && onPicture(point);
    },
    all: () => [...points.values()].map(onPicture),
  };
}

/** The axes of a foot once more, as numbers that know what they rest on. */
interface NotedAxes {
  readonly origin: Point;
  readonly ground: Point;
  readonly u: Point;
  readonly v: Point;
}

function notedAxes(
  points: ReadonlyMap<LandmarkName, Point>,
  input: FootInput,
  axes: FootAxes,
  up: Spotter,
): NotedAxes | null {
  const { view } = input;
  if (view === 'solar') return solarAxes(points);
  const { contact, origin } = groundRules[view];
  const line = lineOf(input);
  const ends = line ? ([up(line[0]), up(line[1])] as const) : pair(points, contact);
  return ends && groundAxes(points, ends, axes, origin);
}

/** X along the ground and Y up from it, the ways that `axes` has settled. */
function groundAxes(
  points: ReadonlyMap<LandmarkName, Point>,
  ground: readonly [Point, Point],
  axes: FootAxes,
  origin: readonly LandmarkName[],
): NotedAxes {
  const across = vector(...ground);
  const line = unit(across);
  const u = axes.u.x * across.x.value - axes.u.y * across.y.value > 0 ? line : negated(line);
  const upwards = negated(clockwise(u));
  const v = axes.v.x * upwards.x.value - axes.v.y * upwards.y.value > 0 ? upwards : negated(upwards);
  const start = origin.map((name) => points.get(name)).find((point) => point !== undefined);
  return { origin: start ?? ground[0], ground: ground[0], u, v };
}

/** X from the middle between the heels to the toe; there is no ground. */
function solarAxes(points: ReadonlyMap<LandmarkName, Point>): NotedAxes | null {
  const heels = pair(points, ['heel.medial', 'heel.lateral']);
  const toe = points.get('toe');
  if (!heels || !toe) return null;
  const origin = midpoint(...heels);
  const u = unit(vector(origin, toe));
  return { origin, ground: origin, u, v: negated(clockwise(u)) };
}

/** The axes as long as a unit of the frame is on the picture. */
function scaledBy({ origin, ground, u, v }: NotedAxes, scale: Real | null): NotedAxes {
  const { graph } = u.x;
  // Every place rests on the axes, so that the way from them back to the ground line and the marker is made short.
  const scaled = ({ x, y }: Point): Point => ({
    x: graph.ofInputs(scale ? x.times(scale) : x),
    y: graph.ofInputs(scale ? y.times(scale) : y),
  });
  return { origin, ground, u: scaled(u), v: scaled(v) };
}

const inFrame = ({ origin, ground, u, v }: NotedAxes, point: Point): Point => ({
  x: along(origin, point, u),
  y: along(ground, point, v),
});

/** The points are put into the frame where they stand, as a second map takes as long to fill as the first. */
function framed(points: Map<LandmarkName, Point>, axes: NotedAxes): void {
  for (const [name, point] of points) points.set(name, inFrame(axes, point));
}

/** The same foot with other places: its contacts still lie on the bearing plane, and what is under that stays the same. */
export function withPlaces({ graph, scale, isOnBearing, ground }: Frame, places: Pick<Frame, 'at' | 'names'>): Frame {
  return { graph, scale, isOnBearing, ground, at: (name) => places.at(name), names: places.names };
}

function pair(points: ReadonlyMap<LandmarkName, Point>, [from, to]: LandmarkPair): readonly [Point, Point] | null {
  const a = points.get(from);
  const b = points.get(to);
  return a && b ? [a, b] : null;
}

/** The scale once more, as a number that knows that it rests on the marker's ends, or on the places of the bones. */
function scaleOf(
  { scale, magnify, landmarks }: FootInput,
  graph: ComputationGraph,
  up: Spotter,
  points: ReadonlyMap<LandmarkName, Point>,
): Real | null {
  if (!scale) return null;
  if (scale.kind === 'bone') {
    const ratios = middleRatios(scale, landmarks).flatMap(({ from, to, mm }) => {
      const ends = pair(points, [from, to]);
      if (!ends) return [];
      const length = vector(...ends);
      return [graph.constant(mm).over(hypotenuse(length.x, length.y))];
    });
    const [first, second] = ratios;
    const ratio = first && second ? first.plus(second).times(0.5) : first;
    return ratio ? ratio.times(graph.input(1, scale.relativeSd)) : null;
  }
  if (scale.kind === 'pixel') return graph.constant(scale.mmPerPx / magnify);
  const [from, to] = scale.ends;
  const marker = vector(up(from), up(to));
  if (marker.x.value === 0 && marker.y.value === 0) return null;
  return graph.constant(scale.mm / magnify).over(hypotenuse(marker.x, marker.y));
}
