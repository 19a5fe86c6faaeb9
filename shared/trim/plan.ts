import { degrees } from '../geometry/point.ts';
import { CutJudge, type Margin } from './cut-limits.ts';
import { offSideAlone } from './heels.ts';
import { predictAtOnce, type Prediction } from './predict.ts';
import { grid, heelToPalmarAngle, heelToSolePlane, largestHeel, most, nearestFirst, stepsIn } from './solve.ts';
import { cutOfNothing, standAfter, type CutSize, type Footing } from './stand.ts';

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
  /** The heel on a plane of its own, from a place that is chosen: only where that takes more than one plane from heel to toe. */
  readonly twoPlanes?: boolean;
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
  /** Two planes were asked for, and take no more than one, mm. */
  | { readonly kind: 'no more'; readonly onOne: number }
  /** The goal is reached already. */
  | { readonly kind: 'there' }
  /** No cut, however deep, reaches the goal. */
  | { readonly kind: 'out of reach' }
  /** The limits let nothing off; what half a millimetre would break, or what bringing the toe back alone breaks. */
  | { readonly kind: 'nothing'; readonly stoppedBy: readonly Margin[] };

/** A foot that is not there after so many visits needs another look, not a longer outlook. */
const mostVisits = 12;
/** mm. What grows out in half a year and more is another foot, and no outlook reaches so far. */
const mostRegrown = 30;
/** mm between the places that two planes are tried from. */
const bendStep = 5;
/** What is left of less than this is no visit of its own, mm: two films do not tell it apart (Collins 2011, as quoted). */
const worthwhile = 2;

/** Null where nothing can be predicted, or the film does not say how far the goal is. */
export function planTrim(asked: PlanAsked): Plan | NoPlan | null {
  return asked.judge.foot.frame.graph.scratch(() => solved(asked));
}

export const isPlan = (made: Plan | NoPlan): made is Plan => 'size' in made;

function solved(asked: PlanAsked): Plan | NoPlan | null {
  const one = onOnePlane(asked);
  return asked.twoPlanes && one !== null && ('size' in one || one.kind === 'nothing') ? onTwoPlanes(asked, one) : one;
}

function onOnePlane({ judge, goal, toeBack, sure, interval, growth }: PlanAsked): Plan | NoPlan | null {
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
    outlook:
      goal.kind === 'most' || growth * interval > mostRegrown ? null : outlook(judge, goal, size, growth * interval),
  };
}

/**
 * The largest heel cut on a plane of its own, if it takes more than one plane does. Every half millimetre is tried from the top, each
 * from every fifth millimetre, the farthest from the heel first: of two places that take as much that one turns the bone less. Nothing
 * is foretold after it, so there is no outlook.
 */
function onTwoPlanes({ judge, goal, toeBack, sure }: PlanAsked, one: Plan | NoPlan): Plan | NoPlan | null {
  const onOne = 'size' in one ? one.size.heelDown : 0;
  const { foot, figures } = judge;
  const places = bendPlaces(foot, toeBack);
  // Deeper no cut keeps the live sole plane, and steeper none the turn that one visit may do: neither has to be stood on to know.
  const deepest = Math.min(most, heelToSolePlane(foot) ?? most);
  const steepest = Math.tan((figures.turn + 1e-6) / degrees);
  const wantedFrom = (heelFrom: number): number => heelWanted(foot, goal, toeBack, heelFrom) ?? 0;
  for (let steps = stepsIn(deepest); steps > stepsIn(onOne); steps--) {
    const heelFrom = places.find(
      (place) =>
        steps * grid <= place * steepest &&
        judge.keeps({ heelDown: steps * grid, heelFrom: place, toeDown: 0, toeBack }, sure) &&
        steps <= stepsIn(wantedFrom(place)),
    );
    if (heelFrom === undefined) continue;
    const wanted = wantedFrom(heelFrom);
    const size = { heelDown: steps * grid, heelFrom, toeDown: 0, toeBack };
    const prediction = predictAtOnce(judge.foot, size);
    if (!prediction) return null;
    const evenOdds = largestHeel({ judge, heelFrom, toeBack, sure: 0.5, atMost: wanted })?.heelDown ?? size.heelDown;
    return {
      goal,
      size,
      prediction,
      evenOdds: Math.max(evenOdds, size.heelDown),
      stoppedBy: steps === stepsIn(wanted) ? [] : nearestFirst(judge, { ...size, heelDown: size.heelDown + grid }),
      left: goal.kind === 'most' ? null : wanted - size.heelDown,
      outlook: null,
    };
  }
  return 'size' in one ? { kind: 'no more', onOne } : one;
}

/**
 * mm in front of the heel's contact: every fifth, as a rasp is set by eye, the farthest first. The last stays as far behind the toe's
 * contact, so that the bend is behind that by any placing.
 */
function bendPlaces(foot: Footing, toeBack: number): number[] {
  const stood = standAfter(foot, cutOfNothing);
  const [heel, toe] = [stood?.frame.at('heel.ground'), stood?.frame.at('toe.ground')];
  const length = heel && toe ? toe.x.value - toeBack - heel.x.value : 0;
  const count = Math.max(0, Math.floor(length / bendStep) - 1);
  return Array.from({ length: count }, (_, i) => (i + 1) * bendStep).toReversed();
}

/** mm of heel to take for the goal; null where the film does not say, or no cut reaches it. */
function heelWanted(foot: Footing, goal: Goal, toeBack: number, heelFrom?: number): number | null {
  switch (goal.kind) {
    case 'sole-plane':
      return heelToSolePlane(foot);
    case 'palmar-angle':
      return heelToPalmarAngle(foot, goal.angle, {
        toeDown: 0,
        toeBack,
        ...(heelFrom !== undefined && { heelFrom }),
      });
    case 'most':
      return Infinity;
  }
}

/** What one side has lost beyond the other, which the foot as it stands does not show: as a cut of its own. */
function sidesLeft(cuts: readonly CutSize[]): CutSize[] {
  const [insideDown, outsideDown] = [offSideAlone(cuts, 'inside'), offSideAlone(cuts, 'outside')];
  return insideDown > 0 || outsideDown > 0 ? [{ ...cutOfNothing, insideDown, outsideDown }] : [];
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
    foot = { frame: stood.frame, earlier: sidesLeft([...foot.earlier, cut]) };
    const left = heelWanted(foot, goal, 0);
    if (left === null || left < worthwhile) return next === null ? null : { next, visits };
    const largest = largestHeel({ judge: new CutJudge(foot, judge.figures), sure: 0, atMost: left });
    if (!largest || largest.heelDown < grid) return next === null ? null : { next, visits: null };
    next ??= largest.heelDown + regrown;
    cut = { heelDown: largest.heelDown, toeDown: 0, toeBack: 0 };
  }
  return next === null ? null : { next, visits: null };
}
