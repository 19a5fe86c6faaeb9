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

interface Match {
  readonly typical: Place;
  readonly placed: Place;
}

/** Maps a typical place (mirrored where `side` is -1) to a picture point with y upwards: a turn with a size, and a shift. */
interface Similarity {
  readonly side: 1 | -1;
  readonly a: Place;
  readonly b: Place;
}

function fitted(view: View, reading: Reading): Fit | null {
  const typical = typicalPlaces[view];
  const middle = meanOf([...typical.values()]);
  const allowed = (name: string): number => {
    const at = typical.get(name) ?? middle;
    return allowedNear + allowedShare * Math.hypot(at[0] - middle[0], at[1] - middle[1]);
  };
  const named = reading.placings.flatMap(({ name, x, y }) => {
    const at = typical.get(name);
    return at ? [{ name, typical: at, placed: [x, -y] as const }] : [];
  });
  if (named.length < fewest) return null;
  const far = (map: Similarity): number => named.filter((one) => residual(map, one) > allowed(one.name)).length;
  // Most readings have nothing amiss: then all points together settle it.
  const together = bestOf([leastSquares(named, 1), leastSquares(named, -1)], named);
  const map = together && far(together) === 0 ? together : robust(named);
  if (!map || 2 * far(map) > named.length - 3) return null;
  const place = (name: string): Place => typical.get(name) ?? middle;
  return {
    allowed,
    off: (name, at) => residual(map, { typical: place(name), placed: [at.x, -at.y] }),
    expected: (name) => {
      const [x, y] = mapped(map, place(name));
      return { x, y: -y };
    },
  };
}

/** The similarity by two points that leaves the rest with the smallest median distance, then settled on those it fits. */
function robust(matches: readonly Match[]): Similarity | null {
  const pairs = matches.flatMap((one, index) =>
    matches.slice(index + 1).flatMap((other) => {
      const [dx, dy] = [one.typical[0] - other.typical[0], one.typical[1] - other.typical[1]];
      return Math.hypot(dx, dy) < shortestBase ? [] : [[one, other]];
    }),
  );
  const best = bestOf(
    pairs.flatMap((pair) => [leastSquares(pair, 1), leastSquares(pair, -1)]),
    matches,
  );
  if (!best) return null;
  const near = matches.filter((one) => residual(best, one) <= settledWithin);
  return near.length < 3 ? best : (leastSquares(near, best.side) ?? best);
}

function bestOf(maps: readonly (Similarity | null)[], matches: readonly Match[]): Similarity | null {
  let best: Similarity | null = null;
  let least = Infinity;
  for (const map of maps) {
    const median = map ? medianOf(matches.map((one) => residual(map, one))) : Infinity;
    if (median >= least) continue;
    least = median;
    best = map;
  }
  return best;
}

function leastSquares(matches: readonly Match[], side: 1 | -1): Similarity | null {
  const from = meanOf(matches.map(({ typical }) => mirrored(typical, side)));
  const to = meanOf(matches.map(({ placed }) => placed));
  let along = 0;
  let across = 0;
  let size = 0;
  for (const { typical, placed } of matches) {
    const [tx, ty] = mirrored(typical, side);
    const [x, y] = [tx - from[0], ty - from[1]];
    const [px, py] = [placed[0] - to[0], placed[1] - to[1]];
    along += x * px + y * py;
    across += x * py - y * px;
    size += x * x + y * y;
  }
  const a: Place = [along / size, across / size];
  if (!(Math.hypot(...a) > 0)) return null;
  const turned = times(a, from);
  return { side, a, b: [to[0] - turned[0], to[1] - turned[1]] };
}

/** In mm of the typical foot, so that a large picture is no worse than a small one. */
function residual(map: Similarity, { typical, placed }: Match): number {
  const [x, y] = mapped(map, typical);
  return Math.hypot(placed[0] - x, placed[1] - y) / Math.hypot(...map.a);
}

function mapped({ side, a, b }: Similarity, place: Place): Place {
  const [x, y] = times(a, mirrored(place, side));
  return [x + b[0], y + b[1]];
}

const mirrored = ([x, y]: Place, side: 1 | -1): Place => [side * x, y];

const times = ([a, b]: Place, [x, y]: Place): Place => [a * x - b * y, a * y + b * x];

function meanOf(places: readonly Place[]): Place {
  const sum = places.reduce(([sx, sy], [x, y]) => [sx + x, sy + y], [0, 0] as Place);
  return [sum[0] / places.length, sum[1] / places.length];
}

/** The upper one of an even number, so that more than half the points have to fit. */
function medianOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Infinity;
}
