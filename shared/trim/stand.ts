import { frameOf, type Frame } from '../geometry/frame.ts';
import { added, clockwise, dot, negated, turned, unit, vector, type Point } from '../geometry/point.ts';
import { angleOf, type Real } from '../geometry/real.ts';

/** How much comes off, mm. */
export interface CutSize {
  readonly heelDown: number;
  readonly toeDown: number;
  readonly toeBack: number;
}

export interface TrimModel {
  /**
   * Degrees by which P2 and P1 follow each degree that the foot turns. 0 where nothing better is known: in standing
   * horses on wedges the coffin joint took 0.98 of each degree (Crevier-Denoix 2001, n = 5).
   */
  readonly follow: number;
}

export const usualModel: TrimModel = { follow: 0 };

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

const joints = new Set(['coffin.centre', 'pastern.centre', 'fetlock.centre']);
const soles = { 'sole.tip': 'tip', 'sole.wing': 'wing', 'sole.heel': 'heel' } as const;

/**
 * Stands the foot on the new line from heel to toe; everything is noted on the frame's own sheet. Null where the film has no
 * scale or no bearing surface, or where the cut leaves nothing to stand on.
 */
export function stand(frame: Frame, cut: CutSize, model: TrimModel): Stood | null {
  const heel = frame.at('heel.ground');
  const toe = frame.at('toe.ground');
  if (!frame.scale || !heel || !toe) return null;
  const { sheet } = frame;
  const constant = (value: number): Real => sheet.constant(value);
  const newHeel: Point = { x: heel.x, y: constant(cut.heelDown) };
  const newToe: Point = { x: toe.x.minus(cut.toeBack), y: constant(cut.toeDown) };
  if (newToe.x.value <= newHeel.x.value) return null;
  const along = unit(vector(newHeel, newToe));
  const up = negated(clockwise(along));
  const delta = angleOf(newHeel.y.minus(newToe.y), newToe.x.minus(newHeel.x));
  const nothing = cut.heelDown === 0 && cut.toeDown === 0 && cut.toeBack === 0;

  const before = new Map(frame.names.flatMap((name) => [[name, frame.at(name) as Point] as const]));
  const origin = before.get('p3.tip') ?? newHeel;
  const onNewLine = (point: Point): Point => ({
    x: dot(vector(origin, point), along),
    y: dot(vector(newHeel, point), up),
  });

  const after = new Map<string, Point>();
  const soleCut: Record<'tip' | 'wing' | 'heel', number | null> = { tip: null, wing: null, heel: null };
  const soleCutSd = { tip: 0, wing: 0, heel: 0 };
  for (const [name, point] of before) {
    if (name === 'heel.ground') after.set(name, onNewLine({ x: point.x, y: point.y.plus(cut.heelDown) }));
    else if (name === 'toe.ground')
      after.set(name, onNewLine({ x: point.x.minus(cut.toeBack), y: point.y.plus(cut.toeDown) }));
    else if (name === 'breakover') after.set(name, onNewLine({ x: point.x.minus(cut.toeBack), y: point.y }));
    else if (name in soles) {
      const stood = onNewLine(point);
      const depth = nothing ? 0 : Math.max(0, -stood.y.value);
      const place = soles[name as keyof typeof soles];
      soleCut[place] = depth;
      if (depth > 0) soleCutSd[place] = sheet.deviation(stood.y);
      after.set(name, depth > 0 ? { x: stood.x, y: constant(0) } : stood);
    } else if (!joints.has(name)) after.set(name, onNewLine(point));
  }
  standJoints(before, after, onNewLine, delta.times(model.follow));

  return { frame: frameOf(sheet, frame.scale, after), delta, soleCut, soleCutSd };
}

/** The coffin joint goes with the foot; the bones above it keep their angle to the ground, less what follows the turn. */
function standJoints(
  before: ReadonlyMap<string, Point>,
  after: Map<string, Point>,
  onNewLine: (point: Point) => Point,
  follow: Real,
): void {
  const coffin = before.get('coffin.centre');
  const stood = coffin && onNewLine(coffin);
  if (stood) after.set('coffin.centre', stood);
  for (const name of ['pastern.centre', 'fetlock.centre']) {
    const joint = before.get(name);
    if (!joint) continue;
    after.set(name, coffin && stood ? added(stood, turned(vector(coffin, joint), follow)) : onNewLine(joint));
  }
}
