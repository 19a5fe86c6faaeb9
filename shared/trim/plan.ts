import type { Frame } from '../geometry/frame.ts';
import { grown } from './growth.ts';
import { predictAtOnce, type Prediction } from './predict.ts';
import {
  broken,
  cutToPalmarAngle,
  cutToSolePlane,
  largestHeelCut,
  largestToeCut,
  type CutLimit,
  type Solver,
} from './solve.ts';
import { stand, type CutSize } from './stand.ts';

export type Goal =
  /** Down to the live sole plane. */
  | { readonly kind: 'sole-plane' }
  /** To a palmar angle, degrees. */
  | { readonly kind: 'palmar-angle'; readonly angle: number }
  /** As much as one visit may take. */
  | { readonly kind: 'most' };

export interface PlanAsked {
  readonly frame: Frame;
  readonly goal: Goal;
  readonly limits: readonly CutLimit[];
  readonly toeBack?: number;
  /** Days between visits, and mm of wall that grow in one. */
  readonly interval: number;
  readonly growth: number;
  /** Cuts are rounded down to multiples of this where no limit speaks against it, mm; without it they are exact to 0.01. */
  readonly grid?: number;
}

export interface PlanStage {
  readonly day: number;
  readonly size: CutSize;
  readonly prediction: Prediction;
  /** The limits that kept this stage from taking more. */
  readonly stoppedBy: readonly string[];
}

export interface Plan {
  readonly stages: readonly PlanStage[];
  readonly reached: boolean;
  /** What stands in the way: of the first stage where it could not take all, or of the plan where it does not get there. */
  readonly stoppedBy: readonly string[];
}

/** A foot that is not there after so many visits needs another look, not a longer plan. */
const mostStages = 12;
/** A visit that gains less than this is no step, mm. */
const worthwhile = 0.25;

/**
 * The visits that reach a goal, each within every limit; what grew at heel and toe since the last one comes off with it.
 * Null where nothing can be predicted or the film does not say how far the goal is.
 */
export function planTrim(asked: PlanAsked): Plan | null {
  return asked.frame.graph.scratch(() => stages(asked));
}

function stages({ frame, goal, limits, toeBack = 0, interval, growth, grid = 0.01 }: PlanAsked): Plan | null {
  const done: PlanStage[] = [];
  let foot = frame;
  let first: readonly string[] = [];
  for (let visit = 0; visit < mostStages; visit++) {
    const regrown = visit === 0 ? 0 : growth * interval;
    const solver = { frame: foot, limits, toeBack: visit === 0 ? toeBack : 0 };
    const step = bestStep(solver, goal, regrown);
    if (step === null) return done.length > 0 ? { stages: done, reached: true, stoppedBy: first } : null;
    if ('broken' in step) return { stages: done, reached: false, stoppedBy: step.broken };
    if (visit === 0) first = step.stoppedBy;
    if (step.heelDown - regrown < worthwhile && step.wanted - regrown >= worthwhile)
      return { stages: done, reached: false, stoppedBy: step.conflict };
    const exact = { heelDown: step.heelDown, toeDown: step.toeDown, toeBack: solver.toeBack };
    const handy = { ...exact, heelDown: floored(step.heelDown, grid), toeDown: floored(step.toeDown, grid) };
    const size = broken(solver, handy)?.length === 0 ? handy : exact;
    const prediction = predictAtOnce(foot, size);
    const stood = stand(foot, size);
    if (!prediction || !stood) return null;
    done.push({ day: visit * interval, size, prediction, stoppedBy: step.stoppedBy });
    const there = step.wanted - step.heelDown < worthwhile;
    if (there || goal.kind === 'most') return { stages: done, reached: true, stoppedBy: first };
    foot = grown(stood.frame, growth * interval);
  }
  return { stages: done, reached: false, stoppedBy: done.at(-1)?.stoppedBy ?? [] };
}

/** mm of heel to take for the goal; null where the film does not say, or the goal is reached. */
function heelWanted(foot: Frame, goal: Goal, solver: Parameters<typeof cutToPalmarAngle>[0]): number | null {
  switch (goal.kind) {
    case 'sole-plane':
      return cutToSolePlane(foot);
    case 'palmar-angle':
      return cutToPalmarAngle(solver, goal.angle);
    case 'most':
      return Infinity;
  }
}

interface SolvedStep {
  readonly heelDown: number;
  readonly toeDown: number;
  readonly wanted: number;
  readonly stoppedBy: readonly string[];
  /** What stands in the way however the toe is taken: with the toe left alone, and with it lowered. */
  readonly conflict: readonly string[];
}

/**
 * The most of one visit. Where the heel can go all the way, as much of what grew at the toe comes off as still lets it; where it
 * cannot, as much heel as the limits allow with the toe left alone, then the toe as far as they still allow (the rest gives the
 * sole under the tip its room), then the heel once more for that toe.
 */
function bestStep(
  solver: Solver,
  goal: Goal,
  regrown: number,
): SolvedStep | { readonly broken: readonly string[] } | null {
  const withToe = (toeDown: number): SolvedStep | { readonly broken: readonly string[] } | null => {
    const tried = { ...solver, toeDown };
    const wanted = heelWanted(solver.frame, goal, tried);
    if (wanted === null) return null;
    const largest = largestHeelCut(tried, wanted);
    if (!largest) return { broken: broken(tried, { heelDown: 0, toeDown, toeBack: solver.toeBack ?? 0 }) ?? [] };
    return { heelDown: largest.heelDown, toeDown, wanted, stoppedBy: largest.stoppedBy, conflict: largest.stoppedBy };
  };
  const alone = withToe(0);
  if (alone === null || 'broken' in alone || regrown === 0) return alone;
  const better = (step: ReturnType<typeof withToe>): step is SolvedStep => step !== null && 'wanted' in step;
  if (alone.stoppedBy.length > 0) {
    const eased = withToe(largestToeCut(solver, alone.heelDown, regrown));
    return better(eased) ? { ...eased, conflict: [...new Set([...alone.stoppedBy, ...eased.stoppedBy])] } : alone;
  }
  let best = alone;
  let low = 0;
  let high = regrown;
  while (high - low > 0.01) {
    const middle = Math.round(((low + high) / 2) * 100) / 100;
    if (middle === low || middle === high) break;
    const step = withToe(middle);
    if (better(step) && step.stoppedBy.length === 0) {
      best = step;
      low = middle;
    } else high = middle;
  }
  return best;
}

const floored = (mm: number, grid: number): number => Math.round(Math.floor(mm / grid + 1e-6) * grid * 100) / 100;
