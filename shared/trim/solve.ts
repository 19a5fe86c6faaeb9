import { once } from '../notation/once.ts';
import type { Frame } from '../geometry/frame.ts';
import { valuesIn, type Values } from '../measures/take.ts';
import { predict, type Prediction } from './predict.ts';
import type { CutSize } from './stand.ts';

/** A cut with what it is predicted to leave. */
export interface CutResult {
  readonly size: CutSize;
  readonly before: Values;
  readonly prediction: Prediction;
}

/** One thing that a cut must not do. */
export interface CutLimit {
  /** Code of the finding that tells of it. */
  readonly code: string;
  /** By how much the outcome breaks the limit; 0 or less where it holds. */
  excess(outcome: CutResult): number;
}

/** Heel cuts are found to a hundredth of a millimetre: finer than any rasp, and than any film. */
const fineness = 0.01;
/** Rounding is no breach: limits hold to a thousandth of their unit. */
const hair = 1e-3;
/** No hoof has more heel than this to lose, mm. */
const most = 60;

export interface Solver {
  readonly frame: Frame;
  readonly limits: readonly CutLimit[];
  /** What is taken at the toe in the same cut. */
  readonly toeDown?: number;
  readonly toeBack?: number;
}

/** A search tries many cuts on one foot. */
const valuesBefore = once((frame: Frame): Values => valuesIn('lateral', frame));

export function outcomeOf({ frame }: Pick<Solver, 'frame'>, size: CutSize): CutResult | null {
  const prediction = predict(frame, size);
  return prediction && { size, before: valuesBefore(frame), prediction };
}

/** The codes of the limits that a cut breaks, in the order of the limits; null where nothing can be predicted. */
export function broken(solver: Solver, size: CutSize): string[] | null {
  const outcome = outcomeOf(solver, size);
  return outcome && solver.limits.filter((limit) => limit.excess(outcome) > hair).map(({ code }) => code);
}

/** Whether a cut can be predicted and breaks no limit. */
function holds(solver: Solver, size: CutSize): boolean {
  const outcome = outcomeOf(solver, size);
  return outcome !== null && solver.limits.every((limit) => !(limit.excess(outcome) > hair));
}

export interface Largest {
  /** mm, a multiple of 0.01. */
  readonly heelDown: number;
  /** What a hundredth more would break; empty where `atMost` was reached. */
  readonly stoppedBy: readonly string[];
}

/**
 * The largest heel cut, up to `atMost`, that breaks no limit; null where nothing can be predicted or where even no heel
 * cut at all breaks one (`broken` then says which).
 */
export function largestHeelCut(solver: Solver, atMost: number = most): Largest | null {
  const { toeDown = 0, toeBack = 0 } = solver;
  const breaks = (steps: number): string[] | null => broken(solver, { heelDown: steps * fineness, toeDown, toeBack });
  const good = (steps: number): boolean => holds(solver, { heelDown: steps * fineness, toeDown, toeBack });
  if (!good(0)) return null;
  let low = 0;
  let high = Math.floor(Math.min(most, Math.max(0, atMost)) / fineness + 1e-9);
  if (good(high)) return { heelDown: rounded(high), stoppedBy: [] };
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (good(middle)) low = middle;
    else high = middle;
  }
  return { heelDown: rounded(low), stoppedBy: breaks(high) ?? [] };
}

/** The largest toe cut up to `atMost` that, with this heel cut, breaks no limit; 0 where none does. mm, a multiple of 0.01. */
export function largestToeCut(solver: Solver, heelDown: number, atMost: number): number {
  const { toeBack = 0 } = solver;
  const good = (steps: number): boolean => holds(solver, { heelDown, toeDown: steps * fineness, toeBack });
  let low = 0;
  let high = Math.floor(Math.max(0, atMost) / fineness + 1e-9);
  if (high === 0 || good(high)) return rounded(high);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (good(middle)) low = middle;
    else high = middle;
  }
  return rounded(low);
}

const rounded = (steps: number): number => Math.round(steps) / 100;

/** The heel cut that brings the palmar angle to `wanted` degrees, to 0.01 mm; null where no cut does. */
export function cutToPalmarAngle(solver: Omit<Solver, 'limits'>, wanted: number): number | null {
  const { toeDown = 0, toeBack = 0 } = solver;
  const angle = (heelDown: number): number | null =>
    outcomeOf(solver, { heelDown, toeDown, toeBack })?.prediction.value('palmar-angle')?.value ?? null;
  const uncut = angle(0);
  const deepest = angle(most);
  if (uncut === null || deepest === null || uncut < wanted || deepest > wanted) return null;
  let low = 0;
  let high = most;
  while (high - low > fineness / 4) {
    const middle = (low + high) / 2;
    if ((angle(middle) ?? wanted) > wanted) low = middle;
    else high = middle;
  }
  return Math.round(((low + high) / 2) * 100) / 100;
}

/** The heel cut that reaches the live sole plane: all of the heel that stands beyond it; null where that is not known. */
export function cutToSolePlane(frame: Frame): number | null {
  const surplus = valuesIn('lateral', frame).get('heel-surplus')?.value;
  return surplus === undefined ? null : Math.max(0, Math.floor(surplus * 100 + 1e-6) / 100);
}
