import { lengthOf } from '../../geometry/real.ts';
import type { View } from '../../notation/landmarks.ts';
import type { Reading } from '../../record/schema.ts';
import { typicalPlaces, type Place } from './typical-places.ts';

/** A typical foot laid over the placed points: turned, mirrored and sized so that most of them fit, whatever a few do. */
export interface Fit {
  /** How far, in mm of the typical foot, a picture point lies from where a landmark is to be expected. */
  off(name: string, at: Pixel): number;
  /** Beyond this no shape of foot explains it. */
  allowed(name: string): number;
  expected(name: string): Pixel;
}

export interface Pixel {
  readonly x: number;
  readonly y: number;
}

/** With fewer points nobody can say which of them is the wrong one. */
export const fewest = 5;

/**
 * What a landmark may be off, in mm of a typical foot: so much near the middle, and a share more for what lies further
 * out, as the fetlock swings with the pastern. Judgement of ours: wider by a tenth than the worst of 12,000 made-up feet,
 * clubbed, flat, rotated and long in the toe (those of tests/property/random-drawn-foot.ts, all points and some of them).
 */
const allowedNear = 55;
const allowedShare = 0.35;

/** What lies nearer than this to the best two-point fit settles it. */
const settledWithin = 40;

/** Pairs that lie nearer to each other than this would fix the turn of the foot badly. */
const shortestBase = 25;

const fits = new WeakMap<Reading, Fit | null>();

/** Null with too few points, and where nothing like a foot fits most of them. */
export function typicalFit(view: View, reading: Reading): Fit | null {
  const known = fits.get(reading);
  if (known !== undefined) return known;
  const fit = fitted(view, reading);
  fits.set(reading, fit);
  return fit;
}

/** A place of the typical foot, and where it is placed on the picture, with y upwards. */
interface Match {
  readonly x: number;
  readonly y: number;
  readonly placedX: number;
  readonly placedY: number;
  readonly allowed: number;
}

/**
 * Maps a typical place (mirrored where `side` is -1) to a picture point with y upwards: a turn with a size (a, b), and a shift
 * (dx, dy).
 */
interface Similarity {
  readonly side: 1 | -1;
  readonly a: number;
  readonly b: number;
  readonly dx: number;
  readonly dy: number;
  readonly size: number;
}

interface Typical {
  readonly x: number;
  readonly y: number;
  readonly allowed: number;
}

/** Where each landmark of a view is to be expected, and what it may be off; any other in the middle of all. */
interface TypicalFoot {
  readonly places: ReadonlyMap<string, Typical>;
  readonly middle: Typical;
}

function typicalFoot(view: View): TypicalFoot {
  const places = typicalPlaces[view];
  const middle = { x: meanOf([...places.values()], ([x]) => x), y: meanOf([...places.values()], ([, y]) => y) };
  const allowed = ([x, y]: Place): number => allowedNear + allowedShare * lengthOf(x - middle.x, y - middle.y);
  return {
    places: new Map([...places].map(([name, at]) => [name, { x: at[0], y: at[1], allowed: allowed(at) }])),
    middle: { ...middle, allowed: allowedNear },
  };
}

const typicalFeet: Readonly<Record<View, TypicalFoot>> = {
  lateral: typicalFoot('lateral'),
  front: typicalFoot('front'),
  solar: typicalFoot('solar'),
};

function fitted(view: View, reading: Reading): Fit | null {
  const { places } = typicalFeet[view];
  const matches: Match[] = [];
  for (const { name, x, y } of reading.placings) {
    const at = places.get(name);
    if (at) matches.push({ x: at.x, y: at.y, placedX: x, placedY: -y, allowed: at.allowed });
  }
  if (matches.length < fewest) return null;
  // Most readings have nothing amiss: then all points together settle it.
  const together = bestOf([leastSquares(matches, 1), leastSquares(matches, -1)], matches);
  const map = together && farOff(together, matches) === 0 ? together : robust(matches);
  if (!map || 2 * farOff(map, matches) > matches.length - 3) return null;
  return new LaidOver(typicalFeet[view], map);
}

class LaidOver implements Fit {
  private readonly foot: TypicalFoot;
  private readonly map: Similarity;

  constructor(foot: TypicalFoot, map: Similarity) {
    this.foot = foot;
    this.map = map;
  }

  allowed(name: string): number {
    return this.place(name).allowed;
  }

  off(name: string, at: Pixel): number {
    return residual(this.map, this.place(name), at.x, -at.y);
  }

  expected(name: string): Pixel {
    const { x, y } = this.place(name);
    return { x: mappedX(this.map, x, y), y: -mappedY(this.map, x, y) };
  }

  private place(name: string): Typical {
    return this.foot.places.get(name) ?? this.foot.middle;
  }
}

function farOff(map: Similarity, matches: readonly Match[]): number {
  let count = 0;
  for (const one of matches) if (residual(map, one, one.placedX, one.placedY) > one.allowed) count++;
  return count;
}

/** The similarity by two points that leaves the rest with the smallest median distance, then settled on those it fits. */
function robust(matches: readonly Match[]): Similarity | null {
  const pairs = matches.flatMap((one, index) =>
    matches
      .slice(index + 1)
      .flatMap((other) => (lengthOf(one.x - other.x, one.y - other.y) < shortestBase ? [] : [[one, other]])),
  );
  const best = bestOf(
    pairs.flatMap((pair) => [leastSquares(pair, 1), leastSquares(pair, -1)]),
    matches,
  );
  if (!best) return null;
  const near = matches.filter((one) => residual(best, one, one.placedX, one.placedY) <= settledWithin);
  return near.length < 3 ? best : (leastSquares(near, best.side) ?? best);
}

function bestOf(maps: readonly (Similarity | null)[], matches: readonly Match[]): Similarity | null {
  let best: Similarity | null = null;
  let least = Infinity;
  const residuals = new Float64Array(matches.length);
  for (const map of maps) {
    if (!map) continue;
    let index = 0;
    for (const one of matches) residuals[index++] = residual(map, one, one.placedX, one.placedY);
    const median = medianOf(residuals);
    if (median >= least) continue;
    least = median;
    best = map;
  }
  return best;
}

function leastSquares(matches: readonly Match[], side: 1 | -1): Similarity | null {
  const fromX = side * meanOf(matches, ({ x }) => x);
  const fromY = meanOf(matches, ({ y }) => y);
  const toX = meanOf(matches, ({ placedX }) => placedX);
  const toY = meanOf(matches, ({ placedY }) => placedY);
  let along = 0;
  let across = 0;
  let spread = 0;
  for (const one of matches) {
    const x = side * one.x - fromX;
    const y = one.y - fromY;
    const px = one.placedX - toX;
    const py = one.placedY - toY;
    along += x * px + y * py;
    across += x * py - y * px;
    spread += x * x + y * y;
  }
  const a = along / spread;
  const b = across / spread;
  const size = lengthOf(a, b);
  if (!(size > 0)) return null;
  return { side, a, b, dx: toX - (a * fromX - b * fromY), dy: toY - (a * fromY + b * fromX), size };
}

/** In mm of the typical foot, so that a large picture is no worse than a small one. */
function residual(map: Similarity, { x, y }: Typical | Match, placedX: number, placedY: number): number {
  return lengthOf(placedX - mappedX(map, x, y), placedY - mappedY(map, x, y)) / map.size;
}

const mappedX = ({ side, a, b, dx }: Similarity, x: number, y: number): number => a * side * x - b * y + dx;
const mappedY = ({ side, a, b, dy }: Similarity, x: number, y: number): number => a * y + b * side * x + dy;

function meanOf<T>(all: readonly T[], of: (one: T) => number): number {
  let sum = 0;
  for (const one of all) sum += of(one);
  return sum / all.length;
}

/** The upper one of an even number, so that more than half the points have to fit. Puts the values in order. */
function medianOf(values: Float64Array): number {
  return values.sort()[Math.floor(values.length / 2)] ?? Infinity;
}
