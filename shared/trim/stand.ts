import { withPlaces, type Frame } from '../geometry/frame.ts';
import { added, along, clockwise, negated, unit, vector, type Point } from '../geometry/point.ts';
import { angleOf, type Real } from '../geometry/real.ts';
import { lateralLandmark, type UnderCut } from '../notation/landmarks.ts';

/** How much comes off the inner and the outer side, mm. */
export interface SideSize {
  readonly insideDown: number;
  readonly outsideDown: number;
}

/** How much comes off, mm. A side counts at its heel; seen from the side the foot does not turn with it. */
export interface CutSize extends Partial<SideSize> {
  readonly heelDown: number;
  readonly toeDown: number;
  readonly toeBack: number;
}

/** A foot as it stands on a day: that of a film, and what has come off it since, in order. */
export interface Footing {
  readonly frame: Frame;
  readonly earlier: readonly CutSize[];
}

export const cutOfNothing: CutSize = { heelDown: 0, toeDown: 0, toeBack: 0 };

/** Whether a cut leaves the foot as it stands, seen from the side. */
export const isNothing = ({ heelDown, toeDown, toeBack }: CutSize): boolean =>
  heelDown === 0 && toeDown === 0 && toeBack === 0;

/** Whether a cut takes nothing that is known in millimetres, of a side neither. */
export const takesNothing = (size: CutSize): boolean => isNothing(size) && !size.insideDown && !size.outsideDown;

export interface SoleCut {
  readonly tip: number | null;
  readonly wing: number | null;
  readonly heel: number | null;
}

/** A foot that stands on the line that a cut leaves. */
export interface Stood {
  readonly frame: Frame;
  /** Radians that the foot turned: positive where the heel is lowered more. */
  readonly delta: Real;
  readonly soleCut: SoleCut;
  /** Standard deviation of each depth that is cut, mm; 0 where nothing is. */
  readonly soleCutSd: Readonly<Record<'tip' | 'wing' | 'heel', number>>;
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
    toe.x.value - cut.toeBack > heel.x.value
  );
}

/** A foot on the line that a cut leaves, with the foot as it stood before it, and what all cuts since the film come to. */
export interface StoodAfter extends Stood {
  readonly before: Frame;
  /** Radians that the foot has turned since the film, with this cut. */
  readonly turned: Real;
}

/** Stands a film's foot on one new line after the other. Null where one of the cuts cannot be stood on. */
export function standAfter({ frame, earlier }: Footing, cut: CutSize): StoodAfter | null {
  let before = frame;
  let turned: Real | null = null;
  for (const one of earlier) {
    const stood = stand(before, one);
    if (!stood) return null;
    turned = turned ? turned.plus(stood.delta) : stood.delta;
    before = stood.frame;
  }
  const stood = stand(before, cut);
  return stood && { ...stood, before, turned: turned ? turned.plus(stood.delta) : stood.delta };
}

/**
 * Stands the foot on the new line from heel to toe, which is its bearing plane from then on: what it wears stays the same under
 * that, so that it turns against the ground by as much. Everything is noted on the frame's own graph, a point when it is asked for
 * and each time anew, so that a few measures cost little. Null where the film has no scale or no bearing plane, or where the cut
 * leaves nothing to stand on.
 */
export function stand(frame: Frame, cut: CutSize): Stood | null {
  const heel = frame.at('heel.ground');
  const toe = frame.at('toe.ground');
  if (!frame.isOnBearing || !frame.scale || !heel || !toe) return null;
  const { graph } = frame;
  const constant = (value: number): Real => graph.constant(value);
  const newHeel: Point = { x: heel.x, y: constant(cut.heelDown) };
  const newToe: Point = { x: toe.x.minus(cut.toeBack), y: constant(cut.toeDown) };
  if (newToe.x.value <= newHeel.x.value) return null;
  const line = unit(vector(newHeel, newToe));
  const up = negated(clockwise(line));
  const delta = angleOf(newHeel.y.minus(newToe.y), newToe.x.minus(newHeel.x));

  const origin = frame.at('p3.tip') ?? newHeel;
  const onNewLine = (point: Point): Point => ({ x: along(origin, point, line), y: along(newHeel, point, up) });

  const soleCut: Record<'tip' | 'wing' | 'heel', number | null> = { tip: null, wing: null, heel: null };
  const soleCutSd = { tip: 0, wing: 0, heel: 0 };
  const nothing = isNothing(cut);
  for (const { place, name } of soles) {
    const point = frame.at(name);
    if (!point) continue;
    const height = along(newHeel, point, up);
    const depth = nothing ? 0 : Math.max(0, -height.value);
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
        return onNewLine({ x: point.x, y: point.y.plus(cut.heelDown) });
      case 'toe contact':
        return onNewLine({ x: point.x.minus(cut.toeBack), y: point.y.plus(cut.toeDown) });
      case 'breakover':
        return onNewLine({ x: point.x.minus(cut.toeBack), y: point.y });
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
  const soled = (point: Point, depth: number | null): Point => {
    const { x, y } = onNewLine(point);
    return depth !== null && depth > 0 ? { x, y: constant(0) } : { x, y };
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
