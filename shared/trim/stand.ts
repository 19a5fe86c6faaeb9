import { withPlaces, type Frame } from '../geometry/frame.ts';
import { added, along, clockwise, negated, unit, vector, type Point } from '../geometry/point.ts';
import { angleOf, type Real } from '../geometry/real.ts';
import { lateralLandmark, type UnderCut } from '../notation/landmarks.ts';

/** How much comes off the inner and the outer side, mm. */
export interface SideSize {
  readonly insideDown: number;
  readonly outsideDown: number;
}

/** How much comes off, mm. One side counts at its heel, and seen from the side the foot does not turn with it; both lower all of it. */
export interface CutSize extends Partial<SideSize> {
  readonly heelDown: number;
  /**
   * mm in front of the heel's contact: from there backwards the heel is cut on a plane of its own. Left out where one plane goes from
   * heel to toe.
   */
  readonly heelFrom?: number;
  readonly toeDown: number;
  readonly toeBack: number;
}

/** What a foot on two planes stands on: the heel's plane, with the toe in the air, or the front part, with the heel in the air. */
export type Stance = 'heels' | 'toe';

/** Whether a cut leaves two planes, and so a foot that stands on the one or on the other. */
export const isBent = ({ heelDown, heelFrom }: Pick<CutSize, 'heelDown' | 'heelFrom'>): boolean =>
  heelFrom !== undefined && heelDown > 0;

/** A foot as it stands on a day: that of a film, and what has come off it since, in order. */
export interface Footing extends TakenBefore {
  readonly frame: Frame;
}

export interface TakenBefore {
  readonly earlier: readonly CutSize[];
  /** What came off it at the same visit; left out where nothing did. */
  readonly atVisit?: TakenAtVisit;
}

/** What came off a foot at a visit before a cut there: what one visit may do holds for all of it together. */
export interface TakenAtVisit {
  /** How many of the last of `earlier` it is. */
  readonly sinceFilm: number;
  /** What came off before the film of that day was taken, which shows the foot without it. */
  readonly beforeFilm: readonly CutSize[];
}

export const cutOfNothing: CutSize = { heelDown: 0, toeDown: 0, toeBack: 0 };

/** mm that the whole foot loses, from heel to toe, where both sides are lowered: what both of them lose. */
export const offBothSides = ({ insideDown = 0, outsideDown = 0 }: Partial<SideSize>): number =>
  Math.min(insideDown, outsideDown);

/** A cut as it is seen from the side. */
export interface SeenCut extends Omit<CutSize, keyof SideSize> {
  /** mm that all of the foot loses, heel and toe alike, beside what is said of heel and toe: what both sides have lost by then. */
  readonly whole: number;
}

/**
 * Cuts in order, as they are seen from the side. What one side has lost lowers the whole foot as soon as the other has lost as much,
 * in the same cut or in a later one.
 */
export function seenFromSide(cuts: readonly CutSize[]): SeenCut[] {
  let [inside, outside, lowered] = [0, 0, 0];
  return cuts.map(({ insideDown = 0, outsideDown = 0, ...cut }) => {
    inside += insideDown;
    outside += outsideDown;
    const whole = Math.min(inside, outside) - lowered;
    lowered += whole;
    return { ...cut, whole };
  });
}

/** A cut as it is seen from the side after what came off before it. */
export const seenAfter = ({ earlier }: Pick<TakenBefore, 'earlier'>, cut: CutSize): SeenCut =>
  seenFromSide([...earlier, cut]).at(-1) ?? seen(cut);

const seen = (cut: CutSize): SeenCut => ({ ...cut, whole: offBothSides(cut) });

/** mm off the toe's height. */
export const offToe = ({ toeDown, whole }: Pick<SeenCut, 'toeDown' | 'whole'>): number => toeDown + whole;

/** Whether the planes that the foot stands on stay where they are: bringing the toe back moves none. */
const isLevelKept = ({ heelDown, toeDown, whole }: SeenCut): boolean => heelDown === 0 && toeDown === 0 && whole === 0;

/** Whether a cut leaves the foot as it stands, seen from the side. */
export const isNothing = (cut: CutSize): boolean =>
  cut.heelDown === 0 && cut.toeDown === 0 && cut.toeBack === 0 && offBothSides(cut) === 0;

/** Whether a cut takes nothing that is known in millimetres, of a side neither. */
export const takesNothing = (size: CutSize): boolean => isNothing(size) && !size.insideDown && !size.outsideDown;

export type SolePlace = 'tip' | 'wing' | 'heel';

export type SoleCut = Readonly<Record<SolePlace, number | null>>;

/** A foot that stands on the line that a cut leaves. */
export interface Stood {
  readonly frame: Frame;
  /** Radians that the foot turned: positive where the heel is lowered more. */
  readonly delta: Real;
  readonly soleCut: SoleCut;
  /** Standard deviation of each depth that is cut, mm; 0 where nothing is. */
  readonly soleCutSd: Readonly<Record<SolePlace, number>>;
}

const soles = [
  { place: 'tip', name: 'sole.tip' },
  { place: 'wing', name: 'sole.wing' },
  { place: 'heel', name: 'sole.heel' },
] as const;

/** Whether there is a bearing plane to cut from, a scale to cut by, and something left to stand on. */
export function stands({ frame, earlier }: Footing, cut: CutSize): boolean {
  if (earlier.length > 0) return frame.graph.scratch(() => standAfter({ frame, earlier }, cut) !== null);
  const heel = frame.at('heel.ground');
  const toe = frame.at('toe.ground');
  return (
    frame.isOnBearing &&
    frame.scale !== null &&
    heel !== undefined &&
    toe !== undefined &&
    toe.x.value - cut.toeBack > heel.x.value + behindBend(cut)
  );
}

/** mm from the heel's contact to where the heel's plane ends; 0 where there is one plane. */
const behindBend = (cut: Pick<CutSize, 'heelDown' | 'heelFrom'>): number => (isBent(cut) ? (cut.heelFrom ?? 0) : 0);

/** What a cut leaves to stand on, in the frame of the foot before it. */
export interface NewPlanes {
  /** The new heel contact H'. */
  readonly heel: Point;
  /** P, where the heel's plane begins; null where one plane goes from heel to toe. */
  readonly bend: Point | null;
  /** The new toe contact T'. */
  readonly toe: Point;
}

/**
 * Where the new planes lie. The front one is that of the same cut without its heel, from H to T', so that without `toe down` it is the
 * ground as it was. Null where the film has no scale or no bearing plane, and where the cut leaves nothing to stand on: no place
 * before the new heel contact, or none before the bend.
 */
export function newPlanes(frame: Frame, cut: SeenCut): NewPlanes | null {
  const heel = frame.at('heel.ground');
  const toe = frame.at('toe.ground');
  if (!frame.isOnBearing || !frame.scale || !heel || !toe) return null;
  const { graph } = frame;
  const newHeel: Point = { x: heel.x, y: graph.constant(cut.heelDown + cut.whole) };
  const newToe: Point = { x: toe.x.minus(cut.toeBack), y: graph.constant(offToe(cut)) };
  const before = behindBend(cut);
  if (newToe.x.value <= newHeel.x.value + before) return null;
  if (before === 0) return { heel: newHeel, bend: null, toe: newToe };
  const height = graph
    .constant(cut.toeDown * before)
    .over(newToe.x.minus(heel.x))
    .plus(cut.whole);
  return { heel: newHeel, bend: { x: heel.x.plus(before), y: height }, toe: newToe };
}

/** A plane from the side: its ends, behind and in front. */
type NewPlane = readonly [Point, Point];

/** The plane that a place of the foot lies over: behind the bend the heel's, before it the front one. */
export function planeUnder({ heel, bend, toe }: NewPlanes, place: Point): NewPlane {
  if (!bend) return [heel, toe];
  return place.x.value < bend.x.value ? [heel, bend] : [bend, toe];
}

const standsOn = ({ heel, bend, toe }: NewPlanes, stance: Stance): NewPlane => {
  if (!bend) return [heel, toe];
  return stance === 'heels' ? [heel, bend] : [bend, toe];
};

/** How far a place stands above a plane, square to it, mm; below 0 where it lies under it. */
export const heightOver = ([from, to]: NewPlane, place: Point): Real =>
  along(from, place, negated(clockwise(unit(vector(from, to)))));

/** A foot on the line that a cut leaves, with the foot as it stood before it, and what all cuts since the film come to. */
export interface StoodAfter extends Stood {
  /** The last cut, as it is seen from the side. */
  readonly cut: SeenCut;
  readonly before: Frame;
  /** Radians that the foot has turned since the film, with this cut. */
  readonly turned: Real;
  /** Radians that it has turned at the visit of this cut, with this cut. */
  readonly turnedAtVisit: Real;
}

/**
 * Stands a film's foot on one new line after the other; after a last cut on two planes, on the one that `stance` says. Null where one
 * of the cuts cannot be stood on, and where one before the last left two planes: how the foot stands since, nobody knows.
 */
export function standAfter(foot: Footing, cut: CutSize, stance: Stance = 'heels'): StoodAfter | null {
  const { frame, earlier, atVisit } = foot;
  let before = frame;
  let turned: Real | null = null;
  let turnedAtVisit: Real | null = atVisit ? turnedBeforeFilm(frame, atVisit.beforeFilm) : null;
  const visitFrom = earlier.length - (atVisit?.sinceFilm ?? 0);
  const cuts = seenFromSide([...earlier, cut]);
  const last = cuts.pop() ?? seen(cut);
  for (const [index, one] of cuts.entries()) {
    const stood = isBent(one) ? null : standSeen(before, one);
    if (!stood) return null;
    turned = turned ? turned.plus(stood.delta) : stood.delta;
    if (index >= visitFrom) turnedAtVisit = turnedAtVisit ? turnedAtVisit.plus(stood.delta) : stood.delta;
    before = stood.frame;
  }
  const stood = standSeen(before, last, stance);
  if (!stood) return null;
  const { delta } = stood;
  return {
    ...stood,
    cut: last,
    before,
    turned: turned ? turned.plus(delta) : delta,
    turnedAtVisit: turnedAtVisit ? turnedAtVisit.plus(delta) : delta,
  };
}

/**
 * Radians that cuts turned the foot by before the film was taken, by the length that it stands on there; null where nothing came off.
 * A cut on two planes counts as none: that film shows on which of them the foot stands.
 */
function turnedBeforeFilm(frame: Frame, cuts: readonly CutSize[]): Real | null {
  const [heel, toe] = [frame.at('heel.ground'), frame.at('toe.ground')];
  if (cuts.length === 0 || !heel || !toe) return null;
  const length = toe.x.value - heel.x.value;
  const turns = cuts.map((one) => (isBent(one) ? 0 : Math.atan2(one.heelDown - one.toeDown, length)));
  return frame.graph.constant(turns.reduce((sum, turn) => sum + turn, 0));
}

/**
 * Stands the foot on the new line from heel to toe, of two planes on one of them, which is its bearing plane from then on: what it
 * wears stays the same under that, so that it turns against the ground by as much. Everything is noted on the frame's own graph, a
 * point when it is asked for and each time anew, so that a few measures cost little. Null where `newPlanes` has none.
 */
export function stand(frame: Frame, cut: CutSize, stance: Stance = 'heels'): Stood | null {
  return standSeen(frame, seen(cut), stance);
}

/** The same of one cut of several. */
export function standSeen(frame: Frame, cut: SeenCut, stance: Stance = 'heels'): Stood | null {
  const planes = newPlanes(frame, cut);
  if (!planes) return null;
  const { graph } = frame;
  const constant = (value: number): Real => graph.constant(value);
  const bearing = standsOn(planes, stance);
  const [behind, inFront] = bearing;
  const line = unit(vector(behind, inFront));
  const up = negated(clockwise(line));
  const delta = angleOf(behind.y.minus(inFront.y), inFront.x.minus(behind.x));

  const origin = frame.at('p3.tip') ?? behind;
  const onNewLine = (point: Point): Point => ({ x: along(origin, point, line), y: along(behind, point, up) });

  const soleCut: Record<SolePlace, number | null> = { tip: null, wing: null, heel: null };
  const soleCutSd = { tip: 0, wing: 0, heel: 0 };
  const level = isLevelKept(cut);
  for (const { place, name } of soles) {
    const point = frame.at(name);
    if (!point) continue;
    const height = heightOver(planeUnder(planes, point), point);
    const depth = level || isLeft(planes, point, cut) ? 0 : Math.max(0, -height.value);
    soleCut[place] = depth;
    if (depth > 0) soleCutSd[place] = graph.deviation(height);
  }

  /**
   * The coffin joint goes with the foot; the bones above it keep their angle to the ground: in standing horses on wedges that
   * joint took 0.98 of each degree (Crevier-Denoix 2001, n = 5).
   */
  const joint = (point: Point): Point => {
    const coffin = frame.at('coffin.centre');
    if (!coffin) return onNewLine(point);
    return added(onNewLine(coffin), vector(coffin, point));
  };
  const stood = (underCut: UnderCut, point: Point): Point => {
    switch (underCut) {
      case 'foot':
        return onNewLine(point);
      case 'heel contact':
        return onNewLine({ x: point.x, y: point.y.plus(cut.heelDown + cut.whole) });
      case 'toe contact':
        return onNewLine({ x: point.x.minus(cut.toeBack), y: point.y.plus(offToe(cut)) });
      case 'breakover':
        return onNewLine(breakover({ x: point.x.minus(cut.toeBack), y: point.y }));
      case 'sole at the tip':
        return soled(point, soleCut.tip);
      case 'sole at the wing':
        return soled(point, soleCut.wing);
      case 'sole at the heel':
        return soled(point, soleCut.heel);
      case 'joint above the coffin':
        return joint(point);
    }
  };
  /** On its heels the foot rolls over the bend, where that lies behind its breakover. */
  const breakover = (point: Point): Point =>
    planes.bend && stance === 'heels' && planes.bend.x.value < point.x.value ? planes.bend : point;
  const soled = (point: Point, depth: number | null): Point => {
    const { x, y } = onNewLine(point);
    if (depth === null || depth === 0) return { x, y };
    const plane = planeUnder(planes, point);
    return plane[0] === behind && plane[1] === inFront ? { x, y: constant(0) } : onNewLine(laidOn(plane, point));
  };
  const after = withPlaces(frame, {
    at: (name) => {
      const point = frame.at(name);
      return point && stood(lateralLandmark(name)?.underCut ?? 'foot', point);
    },
    names: frame.names,
  });
  return { frame: after, delta, soleCut, soleCutSd };
}

/** In front of the bend nothing goes unless the toe comes down, not even sole that was placed under the ground. */
const isLeft = ({ bend }: NewPlanes, place: Point, cut: SeenCut): boolean =>
  bend !== null && offToe(cut) === 0 && place.x.value >= bend.x.value;

/** The place of a plane that a point lies over, square to it. */
function laidOn(plane: NewPlane, point: Point): Point {
  const up = negated(clockwise(unit(vector(...plane))));
  const below = heightOver(plane, point).negated();
  return { x: point.x.plus(up.x.times(below)), y: point.y.plus(up.y.times(below)) };
}
