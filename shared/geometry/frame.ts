import { Sheet, type Real } from './real.ts';
import { clockwise, dot, midpoint, negated, unit, vector, type Point } from './point.ts';

/** A picture point as placed: pixels, y downwards, with the standard deviation of its placing in pixels. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly sd: number;
}

export type ScaleInput =
  | { readonly kind: 'pixel'; readonly mmPerPx: number }
  | { readonly kind: 'marker'; readonly lengthMm: number; readonly from: Spot; readonly to: Spot };

export interface FrameInput {
  readonly placed: ReadonlyMap<string, Spot>;
  readonly ground: readonly [Spot, Spot] | null;
  readonly scale: ScaleInput | null;
  /** How many times too large the scale shows the foot; 1 where nothing is said. */
  readonly magnify: number;
}

/** Why a picture has no foot frame, as what would have to be placed. */
export type FrameLack = 'ground' | 'direction' | 'flat-ground';

/**
 * A lateral foot in its own frame: X along the ground towards the toe from below p3.tip, Y up from the ground,
 * in mm where there is a scale and in pixels where there is none.
 */
export interface Frame {
  readonly sheet: Sheet;
  /** mm/px, null without a scale. */
  readonly scale: Real | null;
  at(name: string): Point | undefined;
  readonly names: readonly string[];
}

export type FrameResult = { readonly frame: Frame; readonly lack: null } | { readonly frame: null; readonly lack: FrameLack };

export function footFrame(input: FrameInput): FrameResult {
  const sheet = new Sheet();
  const up = (spot: Spot): Point => ({ x: sheet.input(spot.x, spot.sd), y: sheet.input(-spot.y, spot.sd) });
  const points = new Map<string, Point>();
  for (const [name, spot] of input.placed) points.set(name, up(spot));
  const wing = points.get('p3.wing');
  const other = points.get('p3.wing.other');
  if (wing && other) points.set('p3.wing', midpoint(wing, other));

  const ground = input.ground ? ([up(input.ground[0]), up(input.ground[1])] as const) : pair(points, 'heel.ground', 'toe.ground');
  if (!ground) return { frame: null, lack: 'ground' };
  const along = vector(ground[0], ground[1]);
  if (along.x.value === 0 && along.y.value === 0) return { frame: null, lack: 'flat-ground' };
  const direction = pair(points, 'p3.wing', 'p3.tip') ?? pair(points, 'heel.ground', 'toe.ground');
  if (!direction) return { frame: null, lack: 'direction' };
  const line = unit(along);
  const u = dot(vector(...direction), line).value > 0 ? line : negated(line);

  const upwards = negated(clockwise(u));
  const v = sideOf(points, ground[0], upwards) >= 0 ? upwards : negated(upwards);
  const origin = points.get('p3.tip') ?? ground[0];
  const scale = scaleOf(input, sheet, up);
  const placed = new Map<string, Point>();
  for (const [name, point] of points) {
    const x = dot(vector(origin, point), u);
    const y = dot(vector(ground[0], point), v);
    placed.set(name, scale ? { x: x.times(scale), y: y.times(scale) } : { x, y });
  }
  return { frame: frameOf(sheet, scale, placed), lack: null };
}

export function frameOf(sheet: Sheet, scale: Real | null, placed: ReadonlyMap<string, Point>): Frame {
  return { sheet, scale, at: (name) => placed.get(name), names: [...placed.keys()] };
}

function pair(points: ReadonlyMap<string, Point>, from: string, to: string): readonly [Point, Point] | null {
  const a = points.get(from);
  const b = points.get(to);
  return a && b ? [a, b] : null;
}

/** On which side of the ground the bone lies, along `upwards`; without bone, where the landmarks lie on the whole. */
function sideOf(points: ReadonlyMap<string, Point>, ground: Point, upwards: Point): number {
  const bone = ['p3.tip', 'p3.wing', 'p3.extensor'].flatMap((name) => points.get(name) ?? []);
  const those = bone.length > 0 ? bone : [...points.values()];
  return those.reduce((sum, point) => sum + dot(vector(ground, point), upwards).value, 0) / Math.max(1, those.length);
}

function scaleOf(input: FrameInput, sheet: Sheet, up: (spot: Spot) => Point): Real | null {
  const { scale, magnify } = input;
  if (!scale) return null;
  if (scale.kind === 'pixel') return sheet.constant(scale.mmPerPx / magnify);
  const marker = vector(up(scale.from), up(scale.to));
  const pixels = dot(marker, unit(marker));
  if (!(pixels.value > 0)) return null;
  return sheet.constant(scale.lengthMm / magnify).over(pixels);
}

/** mm/px as a plain number, before any spread is known. */
export function plainScale(scale: ScaleInput | null, magnify: number): number | null {
  if (!scale) return null;
  if (scale.kind === 'pixel') return scale.mmPerPx / magnify;
  const pixels = Math.hypot(scale.to.x - scale.from.x, scale.to.y - scale.from.y);
  return pixels > 0 ? scale.lengthMm / pixels / magnify : null;
}
