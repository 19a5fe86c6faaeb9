import { cutFigures } from '../../shared/findings/limits/cut-limits.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { plainScale, spreadInPixels, type FootInput } from '../../shared/geometry/foot-input.ts';
import { footFrame } from '../../shared/geometry/frame.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import { CutJudge, type CutFigures } from '../../shared/trim/cut-limits.ts';
import { isPlan, planTrim, type Plan } from '../../shared/trim/plan.ts';
import type { CutSize } from '../../shared/trim/stand.ts';
import { sizeOf } from '../../shared/trim/trim-series.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { answerTo, type PlanQuestion } from './plan-contract.ts';
import { Dice } from './dice.ts';
import { randomPlanCase } from './random-plan-foot.ts';

/** A foot as it was placed, with what a plan of it may not break. */
interface PlacedFoot {
  readonly input: FootInput;
  readonly figures: CutFigures;
  readonly earlier: readonly CutSize[];
}

export function sureQuestion(seed: number, sure: number): PlanQuestion {
  const dice = new Dice(seed ^ 0x51ed);
  const goal = dice.chance(0.5) ? ({ kind: 'most' } as const) : ({ kind: 'sole-plane' } as const);
  return { ...randomPlanCase(seed), wish: { goal, toeBack: 0, sure }, settings: usualStudy };
}

export interface DrawnPlan {
  readonly plan: Plan;
  /** In how many of the draws a limit is broken. */
  readonly broken: number;
}

/** A plan, and how often it breaks a limit on the foot placed anew, each place by its own error. Null where there is no plan. */
export function drawn(question: PlanQuestion, draws: number, dice: Dice): DrawnPlan | null {
  const { plan, says } = answerTo(question);
  if (!plan || says !== '') return null;
  const foot = placedIn(question);
  let broken = 0;
  for (let draw = 0; draw < draws; draw++) if (breaks(foot, plan.size, dice)) broken += 1;
  return { plan, broken };
}

function placedIn({ text, foot, settings }: PlanQuestion): PlacedFoot {
  const { study } = inspect(text, settings);
  const [film] = study.films;
  const input = film?.readings[0]?.input;
  if (!film || !input) throw new Error('no film');
  const earlier = study.cuts.map(({ cut }) => sizeOf(cut));
  return { input, figures: cutFigures(foot, study, film.day), earlier };
}

/** Half a millimetre more than a plan takes: how often that breaks a limit. */
export function drawnBeyond(question: PlanQuestion, { size }: Plan, draws: number, dice: Dice): number {
  const foot = placedIn(question);
  let broken = 0;
  for (let draw = 0; draw < draws; draw++)
    if (breaks(foot, { ...size, heelDown: size.heelDown + 0.5 }, dice)) broken += 1;
  return broken;
}

/**
 * The other way round: the foot is as it is written, somebody places it with errors and plans by that. How many of so many placings
 * give a plan, and how many of these plans break a limit on the foot as it is.
 */
export function inHindsight(question: PlanQuestion, placings: number, dice: Dice): { plans: number; broken: number } {
  const { input, figures, earlier } = placedIn(question);
  const { frame } = footFrame(() => input);
  if (!frame) throw new Error('no frame');
  const truth = new CutJudge({ frame, earlier }, figures);
  const { goal, toeBack, sure } = question.wish;
  const counted = { plans: 0, broken: 0 };
  for (let placing = 0; placing < placings; placing++) {
    const seen = placedAnew(input, dice);
    const { frame: other } = footFrame(() => seen);
    if (!other) throw new Error('no frame');
    const judge = new CutJudge({ frame: other, earlier }, figures);
    const made = planTrim({ judge, goal, toeBack, sure: sure / 100, interval: 28, growth: 0.24 });
    if (!made || !isPlan(made)) continue;
    counted.plans += 1;
    if (truth.of(made.size)?.holds !== true) counted.broken += 1;
  }
  return counted;
}

function breaks({ input, figures, earlier }: PlacedFoot, size: CutSize, dice: Dice): boolean {
  const other = placedAnew(input, dice);
  const { frame } = footFrame(() => other);
  if (!frame) throw new Error('no frame');
  const judged = new CutJudge({ frame, earlier }, figures).of(size);
  if (!judged) throw new Error('not judged');
  return !judged.holds;
}

/** Only what is placed is drawn: limits, trims and the length of a marker are as they are written. */
function placedAnew(input: FootInput, dice: Dice): FootInput {
  const usual = spreadInPixels(input, plainScale(input));
  const shifted = <P extends XY>(at: P, sd: number): P => ({
    ...at,
    x: at.x + sd * normal(dice),
    y: at.y + sd * normal(dice),
  });
  const pair = (ends: readonly [XY, XY]): readonly [XY, XY] => [shifted(ends[0], usual), shifted(ends[1], usual)];
  const { scale } = input;
  return {
    ...input,
    landmarks: input.landmarks.map((one) => shifted(one, one.spread ?? usual)),
    ground: input.ground && pair(input.ground),
    scale: scale?.kind === 'marker' ? { ...scale, ends: pair(scale.ends) } : scale,
  };
}

function normal(dice: Dice): number {
  return Math.sqrt(-2 * Math.log(1 - dice.uniform())) * Math.cos(2 * Math.PI * dice.uniform());
}
