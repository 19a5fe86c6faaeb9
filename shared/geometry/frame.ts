import { hypotenuse, Sheet, type Real } from './real.ts';
import { along, clockwise, midpoint, negated, unit, vector, type Point } from './point.ts';

/** A picture point as placed: pixels, y downwards, with the standard deviation of its placing in pixels. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly sd: number;
}

export type ScaleInput =
  | { readonly kind: 'pixel'; readonly mmPerPx: number }
  | { readonly kind: 'marker'; readonly lengthMm: number; readonly from: Spot; readonly to: Spot };

export interface NamedSpot extends Spot {
  readonly name: string;
}

export interface FrameInput {
  /** Each name once. */
  readonly placed: readonly NamedSpot[];
  readonly ground: readonly [Spot, Spot] | null;
  readonly scale: ScaleInput | null;
  /** How many times too large the scale shows the foot; 1 where nothing is said. */
  readonly magnify: number;
}

/** Why a picture has no foot frame, as what would have to be placed. */
export type FrameLack = 'ground' | 'direction' | 'flat-ground' | 'axis';

export type View = 'lateral' | 'front' | 'solar';

/**
 * A foot in its own frame (lateral: X along the ground to the toe from below p3.tip, Y up; front: X from medial to
 * lateral; solar: X from between the heels to the toe), in mm where there is a scale and in pixels where there is none.
 */
export interface Frame {
  readonly sheet: Sheet;
  /** mm/px, null without a scale. */
  readonly scale: Real | null;
  at(name: string): Point | undefined;
  readonly names: readonly string[];
}

export type FrameResult =
  { readonly frame: Frame; readonly lack: null } | { readonly frame: null; readonly lack: FrameLack };

/** The input is asked for again whenever the frame is laid out anew, so that nobody has to keep it. It has to be the same each time. */
export function footFrame(view: View, given: () => FrameInput): FrameResult {
  const sheet: Sheet<Laid> = new Sheet((on) => {
    const input = given();
    switch (view) {
      case 'lateral':
        return groundFrame(on, input, lateralSense);
      case 'front':
        return groundFrame(on, input, frontSense);
      case 'solar':
        return solarFrame(on, input);
    }
  });
  const { scale, lack } = sheet.laid();
  return lack === null ? { frame: new LaidFrame(sheet, scale), lack } : { frame: null, lack };
}

type Laid =
  | { readonly places: ReadonlyMap<string, Point>; readonly scale: Real | null; readonly lack: null }
  | { readonly places: null; readonly scale: null; readonly lack: FrameLack };

const lacking = (lack: FrameLack): Laid => ({ places: null, scale: null, lack });
const nowhere: ReadonlyMap<string, Point> = new Map();

/** A case holds a frame for each film: its places are kept with the sheet's notes, and made again with them. */
class LaidFrame implements Frame {
  readonly sheet: Sheet<Laid>;
  readonly scale: Real | null;

  constructor(sheet: Sheet<Laid>, scale: Real | null) {
    this.sheet = sheet;
    this.scale = scale;
  }

  at(name: string): Point | undefined {
    return this.places().get(name);
  }

  get names(): readonly string[] {
    return [...this.places().keys()];
  }

  private places(): ReadonlyMap<string, Point> {
    return this.sheet.laid().places ?? nowhere;
  }
}

/** How a view is set up: what stands in for a ground line, which pairs of places tell the sense of X, where X begins, which places lie above. */
interface Sense {
  readonly contact: Pair;
  readonly senses: readonly Pair[];
  readonly origin: string | null;
  readonly above: readonly string[];
}

type Pair = readonly [from: string, to: string];

const lateralSense: Sense = {
  contact: ['heel.ground', 'toe.ground'],
  senses: [
    ['p3.wing', 'p3.tip'],
    ['heel.ground', 'toe.ground'],
  ],
  origin: 'p3.tip',
  above: ['p3.tip', 'p3.wing', 'p3.extensor'],
};

const frontSense: Sense = {
  contact: ['wall.medial', 'wall.lateral'],
  senses: [
    ['p3.medial', 'p3.lateral'],
    ['coronet.medial', 'coronet.lateral'],
    ['wall.medial', 'wall.lateral'],
  ],
  origin: null,
  above: ['p3.medial', 'p3.lateral'],
};

/** A frame with X along the ground and Y up from it. */
function groundFrame(sheet: Sheet, input: FrameInput, sense: Sense): Laid {
  const up = spotter(sheet);
  const points = pointsOf(input, up);
  const ground = input.ground ? ([up(input.ground[0]), up(input.ground[1])] as const) : pair(points, sense.contact);
  if (!ground) return lacking('ground');
  const across = vector(ground[0], ground[1]);
  if (across.x.value === 0 && across.y.value === 0) return lacking('flat-ground');
  const direction = sense.senses.map((names) => pair(points, names)).find((found) => found !== null);
  if (!direction) return lacking('direction');
  const line = unit(across);
  const u = plainAlong(...direction, line) > 0 ? line : negated(line);
  const upwards = negated(clockwise(u));
  const v = sideOf(points, sense.above, ground[0], upwards) >= 0 ? upwards : negated(upwards);
  const origin = (sense.origin !== null && points.get(sense.origin)) || ground[0];
  return framed(input, sheet, points, { origin, ground: ground[0], u, v });
}

/** A frame with X from the middle between the heels to the toe; there is no ground. */
function solarFrame(sheet: Sheet, input: FrameInput): Laid {
  const points = pointsOf(input, spotter(sheet));
  const heels = pair(points, ['heel.medial', 'heel.lateral']);
  const toe = points.get('toe');
  if (!heels || !toe) return lacking('axis');
  const origin = midpoint(...heels);
  const axis = vector(origin, toe);
  if (axis.x.value === 0 && axis.y.value === 0) return lacking('axis');
  const u = unit(axis);
  return framed(input, sheet, points, { origin, ground: origin, u, v: negated(clockwise(u)) });
}

type Spotter = (spot: Spot) => Point;

/** Picture spots as points with y upwards. */
function spotter(sheet: Sheet): Spotter {
  return (spot) => ({ x: sheet.input(spot.x, spot.sd), y: sheet.input(-spot.y, spot.sd) });
}

function pointsOf(input: FrameInput, up: Spotter): Map<string, Point> {
  const points = new Map<string, Point>();
  for (const spot of input.placed) points.set(spot.name, up(spot));
  const wing = points.get('p3.wing');
  const other = points.get('p3.wing.other');
  if (wing && other) points.set('p3.wing', midpoint(wing, other));
  return points;
}

interface Axes {
  readonly origin: Point;
  readonly ground: Point;
  readonly u: Point;
  readonly v: Point;
}

/** The points are put into the frame where they stand, as a second map takes as long to fill as the first. */
function framed(input: FrameInput, sheet: Sheet, points: Map<string, Point>, { origin, ground, u, v }: Axes): Laid {
  const scale = scaleOf(input, sheet);
  // Every place rests on the axes, so that the way from them back to the ground line and the marker is made short.
  const scaled = ({ x, y }: Point): Point => ({
    x: sheet.ofInputs(scale ? x.times(scale) : x),
    y: sheet.ofInputs(scale ? y.times(scale) : y),
  });
  const [across, up] = [scaled(u), scaled(v)];
  for (const [name, point] of points)
    points.set(name, { x: along(origin, point, across), y: along(ground, point, up) });
  return { places: points, scale, lack: null };
}

export function frameOf(sheet: Sheet, scale: Real | null, placed: ReadonlyMap<string, Point>): Frame {
  return { sheet, scale, at: (name) => placed.get(name), names: [...placed.keys()] };
}

function pair(points: ReadonlyMap<string, Point>, [from, to]: Pair): readonly [Point, Point] | null {
  const a = points.get(from);
  const b = points.get(to);
  return a && b ? [a, b] : null;
}

/** On which side of the ground the bone lies, along `upwards`; without bone, where the landmarks lie on the whole. */
function sideOf(points: ReadonlyMap<string, Point>, names: readonly string[], ground: Point, upwards: Point): number {
  const bone = names.flatMap((name) => points.get(name) ?? []);
  const those = bone.length > 0 ? bone : [...points.values()];
  return those.reduce((sum, point) => sum + plainAlong(ground, point, upwards), 0) / Math.max(1, those.length);
}

/** Only which way it points is asked, so nothing is noted. */
function plainAlong(from: Point, to: Point, axis: Point): number {
  return (to.x.value - from.x.value) * axis.x.value + (to.y.value - from.y.value) * axis.y.value;
}

function scaleOf({ scale, magnify }: FrameInput, sheet: Sheet): Real | null {
  if (!scale) return null;
  if (scale.kind === 'pixel') return sheet.constant(scale.mmPerPx / magnify);
  const up = spotter(sheet);
  const marker = vector(up(scale.from), up(scale.to));
  if (marker.x.value === 0 && marker.y.value === 0) return null;
  return sheet.constant(scale.lengthMm / magnify).over(hypotenuse(marker.x, marker.y));
}

/** mm/px as a plain number, before any spread is known. */
export function plainScale(scale: ScaleInput | null, magnify: number): number | null {
  if (!scale) return null;
  if (scale.kind === 'pixel') return scale.mmPerPx / magnify;
  const pixels = Math.hypot(scale.to.x - scale.from.x, scale.to.y - scale.from.y);
  return pixels > 0 ? scale.lengthMm / pixels / magnify : null;
}
