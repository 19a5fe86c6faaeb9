import { CutJudge, type Margin } from './cut-limits.ts';
import { predictAtOnce, type Prediction } from './predict.ts';
import { grid, heelToPalmarAngle, heelToSolePlane, largestHeel, nearestFirst, stepsIn } from './solve.ts';
import { standAfter, type CutSize, type Footing } from './stand.ts';

export type Goal =
  /** Down to the live sole plane. */
  | { readonly kind: 'sole-plane' }
  /** To a palmar angle, degrees. */
  | { readonly kind: 'palmar-angle'; readonly angle: number }
  /** As much as one visit may take. */
  | { readonly kind: 'most' };

export interface PlanAsked {
  readonly judge: CutJudge;
  readonly goal: Goal;
  /** mm that come off the toe's front in the same cut. */
  readonly toeBack: number;
  /** The chance with which all limits are kept together, 0 to 1. */
  readonly sure: number;
  /** Days between visits, and mm of wall that grow in one: both for the outlook alone. */
  readonly interval: number;
  readonly growth: number;
}

/** One cut, the largest towards the goal within every limit, and what would follow it. */
export interface Plan {
  readonly goal: Goal;
  readonly size: CutSize;
  readonly prediction: Prediction;
  /** mm of heel at even odds: where each limit is kept by what was placed, and may be broken by another hand's placing. */
  readonly evenOdds: number;
  /** What half a millimetre more would break, the nearest first; empty where the goal lets no more off. */
  readonly stoppedBy: readonly Margin[];
  /** mm of heel from the goal, after the cut; null for as much as one visit may take. */
  readonly left: number | null;
  readonly outlook: Outlook | null;
}

/** What would follow a first cut, on the next film, by this one. */
export interface Outlook {
  /** mm of heel at the next visit, with what grows until then. */
  readonly next: number;
  /** Visits in all, with the first; null where the goal is not reached within the limits as they stand. */
  readonly visits: number | null;
}

/** What no cut can be made of. */
export type NoPlan =
  /** The goal is reached already. */
  | { readonly kind: 'there' }
  /** No cut, however deep, reaches the goal. */
  | { readonly kind: 'out of reach' }
  /** The limits let nothing off; what half a millimetre would break, or what bringing the toe back alone breaks. */
  | { readonly kind: 'nothing'; readonly stoppedBy: readonly Margin[] };

/** A foot that is not there after so many visits needs another look, not a longer outlook. */
const mostVisits = 12;
/** What is left of less than this is no visit of its own, mm: two films do not tell it apart (Collins 2011, as quoted). */
const worthwhile = 2;

/** Null where nothing can be predicted, or the film does not say how far the goal is. */
export function planTrim(asked: PlanAsked): Plan | NoPlan | null {
  return asked.judge.foot.frame.graph.scratch(() => solved(asked));
}

export const isPlan = (made: Plan | NoPlan): made is Plan => 'size' in made;

function solved({ judge, goal, toeBack, sure, interval, growth }: PlanAsked): Plan | NoPlan | null {
  const wanted = heelWanted(judge.foot, goal, toeBack);
  if (wanted === null) return goal.kind === 'palmar-angle' ? { kind: 'out of reach' } : null;
  if (stepsIn(wanted) === 0) return { kind: 'there' };
  const largest = largestHeel({ judge, toeBack, sure, atMost: wanted });
  if (!largest || largest.heelDown === 0) {
    const tried = { heelDown: 0, toeDown: 0, toeBack };
    return { kind: 'nothing', stoppedBy: largest?.stoppedBy ?? nearestFirst(judge, tried) };
  }
  const size = { heelDown: largest.heelDown, toeDown: 0, toeBack };
  const prediction = predictAtOnce(judge.foot, size);
  if (!prediction) return null;
  const evenOdds = largestHeel({ judge, toeBack, sure: 0.5, atMost: wanted })?.heelDown ?? largest.heelDown;
  return {
    goal,
    size,
    prediction,
    evenOdds,
    stoppedBy: largest.stoppedBy,
    left: goal.kind === 'most' ? null : wanted - size.heelDown,
    outlook: goal.kind === 'most' ? null : outlook(judge, goal, size, growth * interval),
  };
}

/** mm of heel to take for the goal; null where the film does not say, or no cut reaches it. */
function heelWanted(foot: Footing, goal: Goal, toeBack: number): number | null {
  switch (goal.kind) {
    case 'sole-plane':
      return heelToSolePlane(foot);
    case 'palmar-angle':
      return heelToPalmarAngle(foot, goal.angle, { toeDown: 0, toeBack });
    case 'most':
      return Infinity;
  }
}

/**
 * The visits that would follow, by what is placed now and no surer than that: each on the foot as the cut before left it, with the wall
 * that has grown since. What grew at the toe comes off first, so that the toe is as high as on the film. Null where nothing is left.
 */
function outlook(judge: CutJudge, goal: Goal, first: CutSize, regrown: number): Outlook | null {
  let foot: Footing = judge.foot;
  let cut = first;
  let next: number | null = null;
  for (let visits = 1; visits <= mostVisits; visits++) {
    const stood = standAfter(foot, cut);
    if (!stood) return null;
    foot = { frame: stood.frame, earlier: [] };
    const left = heelWanted(foot, goal, 0);
    if (left === null || left < worthwhile) return next === null ? null : { next, visits };
    const largest = largestHeel({ judge: new CutJudge(foot, judge.figures), sure: 0, atMost: left });
    if (!largest || largest.heelDown < grid) return next === null ? null : { next, visits: null };
    next ??= largest.heelDown + regrown;
    cut = { heelDown: largest.heelDown, toeDown: 0, toeBack: 0 };
  }
  return next === null ? null : { next, visits: null };
}
