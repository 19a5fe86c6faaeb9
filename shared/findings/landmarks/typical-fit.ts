import { lengthOf } from '../../geometry/real.ts';
import type { LandmarkName, TypicalPlace, View } from '../../notation/landmarks.ts';
import type { Reading } from '../../record/schema.ts';
import { typicalPlaces } from './typical-places.ts';

/** A typical foot laid over the placed points: turned, mirrored and sized so that most of them fit, whatever a few do. */
export interface Fit {
  /** How far, in mm of the typical foot, a picture point lies from where a landmark is to be expected. */
  off(name: LandmarkName, at: Pixel): number;
  /** Beyond this no shape of foot explains it. */
  allowed(name: LandmarkName): number;
  expected(name: LandmarkName): Pixel;
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

/** The view is that of the reading's film. */
const fitOfReading = new WeakMap<Reading, Fit | null>();

/** Null with too few points, and where nothing like a foot fits most of them. */
export function typicalFit(view: View, reading: Reading): Fit | null {
  const known = fitOfReading.get(reading);
  if (known !== undefined) return known;
  const fit = fitted(view, reading);
  fitOfReading.set(reading, fit);
  return fit;
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
  readonly places: ReadonlyMap<LandmarkName, Typical>;
  readonly middle: Typical;
}

function typicalFoot(view: View): TypicalFoot {
  const places = typicalPlaces[view];
  const middle = { x: meanOf([...places.values()], ([x]) => x), y: meanOf([...places.values()], ([, y]) => y) };
  const allowed = ([x, y]: TypicalPlace): number => allowedNear + allowedShare * lengthOf(x - middle.x, y - middle.y);
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

const mostPlaces = Math.max(...Object.values(typicalFeet).map(({ places }) => places.size));

/**
 * The points of the reading that is looked at, in columns: where each belongs on the typical foot, what it may be off, and where
 * it is placed on the picture, with y upwards. Every reading is looked at, so that these are filled anew and not made anew.
 */
const points = {
  count: 0,
  x: new Float64Array(mostPlaces),
  y: new Float64Array(mostPlaces),
  allowed: new Float64Array(mostPlaces),
  placedX: new Float64Array(mostPlaces),
  placedY: new Float64Array(mostPlaces),
};
const residuals = new Float64Array(mostPlaces);
const everyPoint: readonly number[] = Array.from(residuals.keys());

function fitted(view: View, reading: Reading): Fit | null {
  const { places } = typicalFeet[view];
  let count = 0;
  for (const { name, x, y } of reading.placings) {
    const at = places.get(name);
    if (!at || count === mostPlaces) continue;
    points.x[count] = at.x;
    points.y[count] = at.y;
    points.allowed[count] = at.allowed;
    points.placedX[count] = x;
    points.placedY[count] = -y;
    count++;
  }
  points.count = count;
  if (count < fewest) return null;
  // Most readings have nothing amiss: then all points together settle it.
  const all = everyPoint.slice(0, count);
  const together = bestOf([leastSquares(all, 1), leastSquares(all, -1)]);
  const map = together && farOff(together) === 0 ? together : robust();
  if (!map || 2 * farOff(map) > count - 3) return null;
  return new SimilarityFit(typicalFeet[view], map);
}

class SimilarityFit implements Fit {
  private readonly foot: TypicalFoot;
  private readonly map: Similarity;

  constructor(foot: TypicalFoot, map: Similarity) {
    this.foot = foot;
    this.map = map;
  }

  allowed(name: LandmarkName): number {
    return this.place(name).allowed;
  }

  off(name: LandmarkName, at: Pixel): number {
    const { x, y } = this.place(name);
    return residual(this.map, x, y, at.x, -at.y);
  }

  expected(name: LandmarkName): Pixel {
    const { x, y } = this.place(name);
    return { x: mappedX(this.map, x, y), y: -mappedY(this.map, x, y) };
  }

  private place(name: LandmarkName): Typical {
    return this.foot.places.get(name) ?? this.foot.middle;
  }
}

function farOff(map: Similarity): number {
  let far = 0;
  for (let one = 0; one < points.count; one++) if (offAt(map, one) > (points.allowed[one] as number)) far++;
  return far;
}

/** The similarity by two points that leaves the rest with the smallest median distance, then settled on those it fits. */
function robust(): Similarity | null {
  const all = everyPoint.slice(0, points.count);
  const [x, y] = [points.x, points.y] as const;
  const apart = (one: number, other: number): number =>
    lengthOf((x[one] as number) - (x[other] as number), (y[one] as number) - (y[other] as number));
  const pairs = all.flatMap((one) =>
    all.slice(one + 1).flatMap((other) => (apart(one, other) < shortestBase ? [] : [[one, other]])),
  );
  const best = bestOf(pairs.flatMap((pair) => [leastSquares(pair, 1), leastSquares(pair, -1)]));
  if (!best) return null;
  const near = all.filter((one) => offAt(best, one) <= settledWithin);
  return near.length < 3 ? best : (leastSquares(near, best.side) ?? best);
}

/** By the upper median of an even number, so that more than half the points have to fit. */
function bestOf(maps: readonly (Similarity | null)[]): Similarity | null {
  let best: Similarity | null = null;
  let least = Infinity;
  const middle = Math.floor(points.count / 2);
  for (const map of maps) {
    if (!map) continue;
    let nearer = 0;
    for (let one = 0; one < points.count; one++) {
      const off = offAt(map, one);
      residuals[one] = off;
      if (off < least) nearer++;
    }
    // With so few nearer than the least median so far its own is no less, and need not be looked for.
    if (nearer <= middle) continue;
    least = residuals.subarray(0, points.count).sort()[middle] ?? Infinity;
    best = map;
  }
  return best;
}

function leastSquares(which: readonly number[], side: 1 | -1): Similarity | null {
  const fromX = side * meanAt(points.x, which);
  const fromY = meanAt(points.y, which);
  const toX = meanAt(points.placedX, which);
  const toY = meanAt(points.placedY, which);
  let along = 0;
  let across = 0;
  let spread = 0;
  for (const one of which) {
    const x = side * (points.x[one] as number) - fromX;
    const y = (points.y[one] as number) - fromY;
    const px = (points.placedX[one] as number) - toX;
    const py = (points.placedY[one] as number) - toY;
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

/** How far a point of the reading lies from where it belongs. */
function offAt(map: Similarity, one: number): number {
  const { x, y, placedX, placedY } = points;
  return residual(map, x[one] as number, y[one] as number, placedX[one] as number, placedY[one] as number);
}

/** In mm of the typical foot, so that a large picture is no worse than a small one. */
function residual(map: Similarity, x: number, y: number, placedX: number, placedY: number): number {
  return lengthOf(placedX - mappedX(map, x, y), placedY - mappedY(map, x, y)) / map.size;
}

const mappedX = ({ side, a, b, dx }: Similarity, x: number, y: number): number => a * side * x - b * y + dx;
const mappedY = ({ side, a, b, dy }: Similarity, x: number, y: number): number => a * y + b * side * x + dy;

function meanOf<T>(all: readonly T[], of: (one: T) => number): number {
  let sum = 0;
  for (const one of all) sum += of(one);
  return sum / all.length;
}

function meanAt(column: Float64Array, which: readonly number[]): number {
  let sum = 0;
  for (const one of which) sum += column[one] as number;
  return sum / which.length;
}
