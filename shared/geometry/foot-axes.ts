import type { LandmarkName, View } from '../notation/landmarks.ts';
import { between, dot, mean, minus, plus, type XY } from './vector.ts';

/** Why nothing can be measured in a foot's frame, as what would have to be placed. */
export type FrameLack = 'ground' | 'direction' | 'flat-ground' | 'axis';

/**
 * How the frame of a foot lies on its picture (pixels, y downwards): X to the toe and Y up from what it stands on, so that a foot that
 * faces the other way or stands on a tilted ground is the same foot. There is one for any handful of landmarks, to draw in.
 * Measures are stricter: they are taken where nothing is lacking.
 */
export interface FootAxes {
  readonly origin: XY;
  /** Of length 1, as is `v`, which stands square to it. */
  readonly u: XY;
  readonly v: XY;
  /** Whether Y = 0 is a real ground line. */
  readonly grounded: boolean;
  readonly lack: FrameLack | null;
}

/** What is placed, in pixels of the picture. With both wings placed `p3.wing` is the middle between them. */
export interface PlacedPoints {
  at(name: LandmarkName): XY | undefined;
  all(): Iterable<XY>;
}

export function placedIn(places: Pick<ReadonlyMap<LandmarkName, XY>, 'get' | 'values'>): PlacedPoints {
  return {
    at: (name) => {
      const place = places.get(name);
      const other = name === 'p3.wing' ? places.get('p3.wing.other') : undefined;
      return place && other ? between(place, other, 0.5) : place;
    },
    all: () => places.values(),
  };
}

export function footAxes(view: View, placed: PlacedPoints, ground: readonly [XY, XY] | null): FootAxes {
  return view === 'solar' ? solarAxes(placed) : groundAxes(placed, ground, groundRules[view]);
}

/** What a foot is laid along: the bearing plane where it is placed, else the ground. */
export function lineOf({
  bearing,
  ground,
}: {
  readonly bearing: readonly [XY, XY] | null;
  readonly ground: readonly [XY, XY] | null;
}): readonly [XY, XY] | null {
  return bearing ?? ground;
}

export function intoFrame({ origin, u, v }: FootAxes, p: XY): XY {
  const d = minus(p, origin);
  return { x: dot(d, u), y: dot(d, v) };
}

export function ontoImage({ origin, u, v }: FootAxes, p: XY): XY {
  return plus(plus(origin, u, p.x), v, p.y);
}

export type LandmarkPair = readonly [from: LandmarkName, to: LandmarkName];

/** How the frame of a view that has a ground is settled. */
interface GroundRule {
  /** What stands in for a ground line. */
  readonly contact: LandmarkPair;
  /** Pairs of which the first that tells it gives the sense of X. One of them is needed to measure. */
  readonly senses: readonly LandmarkPair[];
  /** More of them, which are good enough to draw by. */
  readonly roughSenses: readonly LandmarkPair[];
  /** Where X begins, in the order of preference; else at the first end of the ground. */
  readonly origin: readonly LandmarkName[];
  /** Where X and Y begin without a ground. */
  readonly roughOrigin: readonly LandmarkName[];
  /** What lies above the ground. */
  readonly above: readonly LandmarkName[];
}

export const groundRules: Readonly<Record<Exclude<View, 'solar'>, GroundRule>> = {
  lateral: {
    contact: ['heel.ground', 'toe.ground'],
    senses: [
      ['p3.wing', 'p3.tip'],
      ['heel.ground', 'toe.ground'],
    ],
    roughSenses: [
      ['sole.wing', 'sole.tip'],
      ['coronet.heel', 'coronet.dorsal'],
      ['heel.ground', 'wall.lower'],
      ['p3.navicular', 'p3.tip'],
      ['p3.navicular', 'p3.extensor'],
      ['coffin.centre', 'p3.tip'],
      ['wall.upper', 'wall.lower'],
      ['p3.dorsal.upper', 'p3.dorsal.lower'],
      ['fetlock.centre', 'coffin.centre'],
      ['pastern.centre', 'coffin.centre'],
      ['navicular.upper', 'coffin.centre'],
    ],
    origin: ['p3.tip'],
    roughOrigin: ['p3.tip', 'toe.ground'],
    above: ['p3.tip', 'p3.wing', 'p3.extensor'],
  },
  front: {
    contact: ['wall.medial', 'wall.lateral'],
    senses: [
      ['p3.medial', 'p3.lateral'],
      ['coronet.medial', 'coronet.lateral'],
      ['wall.medial', 'wall.lateral'],
    ],
    roughSenses: [],
    origin: [],
    roughOrigin: [],
    above: ['p3.medial', 'p3.lateral'],
  },
};

const LEVEL: XY = { x: 1, y: 0 };

/** X along the ground and Y up from it; along the picture's own edges where there is no ground. */
function groundAxes(placed: PlacedPoints, given: readonly [XY, XY] | null, rule: GroundRule): FootAxes {
  const ground = given ?? pair(placed, rule.contact);
  const line = ground && wayOf(ground);
  const u = sensed(placed, line ?? LEVEL, rule);
  const upwards: XY = { x: u.y, y: -u.x };
  const bone = rule.above.flatMap((name) => placed.at(name) ?? []);
  const middle = mean(bone.length > 0 ? bone : [...placed.all()]);
  const side = ground && line && middle ? dot(minus(middle, ground[0]), upwards) : 0;
  const v = side < 0 || (side === 0 && upwards.y > 0) ? opposite(upwards) : upwards;
  const lack = !ground
    ? 'ground'
    : !line
      ? 'flat-ground'
      : rule.senses.some((names) => pair(placed, names))
        ? null
        : 'direction';
  if (!ground || !line)
    return { origin: first(placed, rule.roughOrigin) ?? middle ?? { x: 0, y: 0 }, u, v, grounded: false, lack };
  const start = first(placed, rule.origin) ?? ground[0];
  return { origin: plus(start, v, -dot(minus(start, ground[0]), v)), u, v, grounded: true, lack };
}

/** X from the middle between the heels to the toe; there is no ground. */
function solarAxes(placed: PlacedPoints): FootAxes {
  const heels = pair(placed, ['heel.medial', 'heel.lateral']);
  const toe = placed.at('toe');
  const origin = heels && between(...heels, 0.5);
  const u = origin && toe && wayOf([origin, toe]);
  if (!u) return { origin: origin ?? { x: 0, y: 0 }, u: LEVEL, v: { x: 0, y: -1 }, grounded: false, lack: 'axis' };
  return { origin, u, v: { x: u.y, y: -u.x }, grounded: false, lack: null };
}

/**
 * The first pair that tells it gives the sense; one that stands square to the line does not. With nothing to tell it by the toe is
 * taken to the left, as such films are hung.
 */
function sensed(placed: PlacedPoints, line: XY, { senses, roughSenses }: GroundRule): XY {
  for (const pairs of [senses, roughSenses])
    for (const names of pairs) {
      const ends = pair(placed, names);
      const told = ends ? dot(minus(ends[1], ends[0]), line) : 0;
      if (told !== 0) return told > 0 ? line : opposite(line);
    }
  return line.x > 0 ? opposite(line) : line;
}

function pair(placed: PlacedPoints, [from, to]: LandmarkPair): readonly [XY, XY] | null {
  const a = placed.at(from);
  const b = placed.at(to);
  return a && b ? [a, b] : null;
}

function wayOf([from, to]: readonly [XY, XY]): XY | null {
  const { x, y } = minus(to, from);
  const size = Math.hypot(x, y);
  return size > 0 ? { x: x / size, y: y / size } : null;
}

function first(placed: PlacedPoints, names: readonly LandmarkName[]): XY | undefined {
  return names.map((name) => placed.at(name)).find((place) => place !== undefined);
}

const opposite = ({ x, y }: XY): XY => ({ x: -x, y: -y });
