import { direction, distance, plus, turned, type XY } from '../../geometry/vector.ts';
import { circleThrough } from '../../geometry/circle.ts';
import { robustCircle, type CircleFit } from './circle-fit.ts';
import { robustLine, type LineFit } from './line-fit.ts';
import { topOfThree } from './peak.ts';
import { greyOfLevel, type Pyramid } from './pyramid.ts';

/** Samples across an edge, in pixels: near enough to one another that a parabola through three finds the steepest place. */
export const STEP = 0.5;
/** A softer edge than this many greys over a pixel is grain. */
const FAINT = 1.5;
/** Steepest places that lie further about, as a share of what was looked at, are those of grain and not of an edge. */
const UNSTEADY = 0.3;
/** A nearer edge comes before one that is as strong further off: at the end of what is looked at it counts so much less. */
export const NEARER = 0.9;
/** Most places that a line or an arc is fitted to. */
const MOST = 80;

/** How much of an edge is averaged at each place along it: pixels at most, and of a long one the share. */
const AVERAGED = 5;
const AVERAGED_OF_LONG = 1 / 15;

/** The least share of the places that have to lie on the line: fewer of those that each tell of a long piece do so by chance. */
const SHARE = 1 / 2;
const SHARE_OF_LONG = 2 / 3;

/** One place where greys are looked at across: where it is, and which way is across, of length 1. */
export interface Station {
  readonly at: XY;
  readonly across: XY;
  /** Along the edge, of length 1. */
  readonly along: XY;
}

/** Steepness across at each sample from -reach to reach, averaged over `wide` pixels along the edge. */
export function steepnessAcross(
  picture: Pyramid,
  { at, across, along }: Station,
  reach: number,
  wide: number,
): Float64Array {
  const count = 2 * Math.ceil(reach / STEP) + 1;
  // Two more at either end, as a slope is taken from what lies on both sides.
  const greys = new Float64Array(count + 4);
  const rows = Math.max(1, Math.round(wide));
  for (let i = 0; i < greys.length; i++) {
    const far = (i - (greys.length - 1) / 2) * STEP;
    for (let row = 0; row < rows; row++) {
      const beside = row - (rows - 1) / 2;
      const x = at.x + across.x * far + along.x * beside;
      const y = at.y + across.y * far + along.y * beside;
      greys[i] = (greys[i] as number) + greyOfLevel(picture, 0, x, y) / rows;
    }
  }
  const steep = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const g = (d: number): number => greys[i + 2 + d] as number;
    // A slope over two pixels, weighed towards its middle: less of the grain, and the edge stays where it is.
    steep[i] = (2 * (g(2) - g(-2)) + 2 * (g(1) - g(-1))) / (12 * STEP);
  }
  return steep;
}

/**
 * The steepest place, to a fraction of a sample, whose steepness has the sign; null where there is none or it is faint.
 *
 * @param nearer how much less one at the rim of what is looked at counts than one in the middle, as a share
 */
export function steepest(steep: Float64Array, sign: number, reach: number, nearer: number): number | null {
  const middle = (steep.length - 1) / 2;
  let best = FAINT;
  let found = -1;
  for (let i = 1; i < steep.length - 1; i++) {
    const here = sign * (steep[i] as number);
    if (here < sign * (steep[i - 1] as number) || here < sign * (steep[i + 1] as number)) continue;
    const far = ((i - middle) * STEP) / reach;
    const worth = here * (1 - nearer * far * far);
    if (worth > best) {
      best = worth;
      found = i;
    }
  }
  if (found < 0) return null;
  const top = topOfThree(
    sign * (steep[found - 1] as number),
    sign * (steep[found] as number),
    sign * (steep[found + 1] as number),
  );
  return (found - middle + top) * STEP;
}

/** Whether it grows lighter (1) or darker (-1) across the strongest edge that all stations share. */
export function sharedSign(all: readonly Float64Array[], reach: number): number {
  const [first] = all;
  if (!first) return 1;
  let [best, sign] = [0, 1];
  for (let i = 0; i < first.length; i++) {
    let sum = 0;
    for (const steep of all) sum += steep[i] as number;
    const far = ((i - (first.length - 1) / 2) * STEP) / reach;
    const worth = Math.abs(sum) * (1 - NEARER * far * far);
    if (worth > best) {
      best = worth;
      sign = Math.sign(sum);
    }
  }
  return sign;
}

/** A line fitted to an edge of a picture. Pixels. */
export interface EdgeLine {
  /** Where the two clicks come to lie on it: each straight across to the line. */
  readonly ends: readonly [XY, XY];
  /** One standard deviation of either end across the line. */
  readonly sds: readonly [number, number];
  /** Of the line's way, degrees, one standard deviation. */
  readonly angleSd: number;
  /** The share of the places looked at that lie on the line. */
  readonly share: number;
  readonly residualSd: number;
}

/** What is known of an edge beforehand. */
interface KnownEdge {
  /** Pixels along the edge that go together at each place; null for as many as lie between two places, a few at most. */
  readonly averaged: number | null;
  /**
   * On which side it is lighter: 1 where `turned` of the way from one click to the other points, -1 on the other; null: whichever, as
   * the strongest edge has it.
   */
  readonly lighter: 1 | -1 | null;
}

/**
 * Two clicks near a straight edge, and the line fitted to the strongest edge between them. Null where they are one place, most of
 * what is between them has no edge within `reach` pixels, or the line leaves a click further off than that.
 */
export function edgeLine(
  picture: Pyramid,
  a: XY,
  b: XY,
  reach: number,
  { averaged = null, lighter = null }: Partial<KnownEdge> = {},
): EdgeLine | null {
  const first = fitOnce(picture, a, b, reach, lighter, averaged, NEARER);
  if (!first) return null;
  // Looked at once more from the line itself: across it is now truly across, and what lies further off is no longer looked at.
  const again = fitOnce(picture, first.ends[0], first.ends[1], Math.max(3, reach / 3), first.sign, averaged, 0);
  if (!again || again.line.residualSd > UNSTEADY * Math.max(3, reach / 3)) return null;
  const [from, to] = again.line.ends;
  return distance(a, from) <= reach && distance(b, to) <= reach ? again.line : null;
}

/**
 * The same of a long edge that is faint, such as that of the block that a foot stands on: more is averaged along it, which a shorter or
 * a bent one would not bear.
 */
export function longEdgeLine(picture: Pyramid, a: XY, b: XY, reach: number): EdgeLine | null {
  return edgeLine(picture, a, b, reach, { averaged: distance(a, b) * AVERAGED_OF_LONG });
}

function fitOnce(
  picture: Pyramid,
  a: XY,
  b: XY,
  reach: number,
  known: number | null,
  averaged: number | null,
  nearer: number,
): { line: EdgeLine; ends: readonly [XY, XY]; sign: number } | null {
  const way = direction(a, b);
  if (!way) return null;
  const across = turned(way);
  const long = distance(a, b);
  // What goes together at a place is half of what goes together at the next: more places would tell the same twice.
  const places = averaged === null ? long / 2 : (2 * long) / averaged;
  const count = Math.max(8, Math.min(MOST, Math.floor(places)));
  const gap = long / (count - 1);
  const stations = Array.from({ length: count }, (_, i) => ({ at: plus(a, way, i * gap), across, along: way }));
  const all = stations.map((station) => steepnessAcross(picture, station, reach, averaged ?? Math.min(gap, AVERAGED)));
  const sign = known ?? sharedSign(all, reach);
  const along: number[] = [];
  const off: number[] = [];
  for (const [i, steep] of all.entries()) {
    const found = steepest(steep, sign, reach, nearer);
    if (found === null) continue;
    along.push(i * gap);
    off.push(found);
  }
  const fit = robustLine(along, off, Math.max(6, count * (averaged === null ? SHARE : SHARE_OF_LONG)), 0.3);
  if (!fit) return null;
  const ends: readonly [XY, XY] = [on(fit, a, way, across, 0), on(fit, a, way, across, long)];
  const line = {
    ends,
    sds: [fit.sdAt(0), fit.sdAt(long)] as const,
    angleSd: (fit.slopeSd / (1 + fit.slope ** 2)) * (180 / Math.PI),
    share: fit.count / count,
    residualSd: fit.residualSd,
  };
  return { line, ends, sign };
}

/** The foot of the perpendicular from a place along the first line onto the fitted one. */
function on(fit: LineFit, from: XY, way: XY, across: XY, along: number): XY {
  const { offset, slope } = fit;
  const straight = (along - slope * offset) / (1 + slope * slope);
  return plus(plus(from, way, straight), across, offset + slope * straight);
}

/**
 * Three clicks near the edge of a rounded bone end, and the circle fitted to the edge along the arc that they span. Null where the
 * three lie on a line, most of the arc has no edge within `reach` pixels, or the circle leaves a click further off than that.
 */
export function edgeCircle(picture: Pyramid, clicks: readonly [XY, XY, XY], reach: number): CircleFit | null {
  const [a, b, c] = clicks;
  const round = circleThrough(a, b, c);
  if (!round || !(round.radius > 2)) return null;
  let circle = round;
  let found: CircleFit | null = null;
  let sign: number | null = null;
  for (const near of [reach, Math.max(3, reach / 2)]) {
    const stations = arcStations(circle, clicks);
    const all = stations.map((station) => steepnessAcross(picture, station, near, 3));
    const shared: number = sign ?? sharedSign(all, near);
    sign = shared;
    const places = stations.flatMap(({ at, across }, i) => {
      const off = steepest(all[i] ?? new Float64Array(0), shared, near, near === reach ? NEARER : 0);
      return off === null ? [] : [plus(at, across, off)];
    });
    found = robustCircle(places, circle, Math.max(8, stations.length / 2));
    if (!found) return null;
    circle = { ...found.centre, radius: found.radius };
  }
  const off = (click: XY): number => Math.abs(Math.hypot(click.x - circle.x, click.y - circle.y) - circle.radius);
  const isSteady = found !== null && found.residualSd <= UNSTEADY * Math.max(3, reach / 2);
  return isSteady && clicks.every((click) => off(click) <= reach) ? found : null;
}

/** Places along the arc that goes from one click through another to the third, leaving out the part without a click. */
function arcStations(circle: XY & { readonly radius: number }, clicks: readonly XY[]): Station[] {
  const angles = clicks.map((click) => Math.atan2(click.y - circle.y, click.x - circle.x)).sort((p, q) => p - q);
  const gaps = angles.map((angle, i) => (angles[i + 1] ?? (angles[0] ?? 0) + 2 * Math.PI) - angle);
  const widest = gaps.indexOf(Math.max(...gaps));
  const from = angles[(widest + 1) % angles.length] ?? 0;
  const span = 2 * Math.PI - (gaps[widest] ?? 0);
  const count = Math.max(12, Math.min(MOST, Math.floor((span * circle.radius) / 2)));
  return Array.from({ length: count }, (_, i) => {
    const angle = from + (span * i) / (count - 1);
    const across = { x: Math.cos(angle), y: Math.sin(angle) };
    return { at: plus(circle, across, circle.radius), across, along: turned(across) };
  });
}
