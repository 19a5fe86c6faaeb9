import { inspect, type InspectSettings } from '../../shared/findings/inspect.ts';
import { atEnd, below } from '../../shared/findings/limits/plan-place.ts';
import { isUnshodOn, planAt, type Planned, type PlanWish } from '../../shared/findings/limits/planning.ts';
import { planBlock, planVisit } from '../../shared/edits/plan-notation.ts';
import type { Goal, Plan } from '../../shared/trim/plan.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { Dice, round } from './dice.ts';
import { randomPlanCase } from './random-plan-foot.ts';

/** One question for a plan: a random foot, goal and settings, as its seed gives them. */
export interface PlanQuestion {
  readonly text: string;
  readonly foot: string;
  readonly wish: PlanWish & { readonly toeBack: number; readonly sure: number };
  readonly settings: InspectSettings;
}

export function questionOf(seed: number): PlanQuestion {
  const dice = new Dice(seed ^ 0x9e37);
  const goal = dice.pick<Goal>([
    { kind: 'sole-plane' },
    { kind: 'most' },
    { kind: 'palmar-angle', angle: round(dice.between(1, 9), 1) },
  ]);
  const toeBack = dice.chance(0.25) ? round(dice.between(0.5, 8), 1) : 0;
  const sure = dice.pick([90, 90, 50, Math.round(dice.between(51, 98))]);
  const trim = dice.chance(0.3)
    ? { ...usualStudy.trim, turnPerVisit: round(dice.between(1, 9), 1), hornAtToe: round(dice.between(2, 8), 1) }
    : usualStudy.trim;
  const spread = dice.chance(0.3) ? { mm: round(dice.between(0.05, 1.5), 2), px: 5 } : usualStudy.spread;
  return { ...randomPlanCase(seed), wish: { goal, toeBack, sure }, settings: { ...usualStudy, trim, spread } };
}

export function answerTo({ text, foot, wish, settings }: PlanQuestion): Planned {
  const { study } = inspect(text, settings);
  const place = atEnd(foot, study);
  if (!place) throw new Error('no visit has a date');
  return planAt(place, wish, study);
}

/** What `check` tells of the cut in a text that ends with it, at warning and above; the codes. */
export function complaintsOf(text: string, block: string, settings: InspectSettings): string[] {
  const whole = `${text}\n${block}\n`;
  const from = text.length;
  return inspect(whole, settings)
    .findings.filter(({ at, severity }) => at.start >= from && (severity === 'warning' || severity === 'error'))
    .map(({ code, message }) => `${code}: ${message}`);
}

/** The plan put below its film, as an editor does it; null where another film would be meant there. */
export function belowItsFilm({ text, wish, settings }: PlanQuestion): { block: string; complaints: string[] } | null {
  const { study } = inspect(text, settings);
  const [film] = study.films;
  const place = film && below(film);
  const made = place && planAt(place, wish, study);
  if (!film || !made?.plan || made.says !== '') return null;
  const end = film.visit.start + film.film.at.end;
  const block = planBlock(film.film.foot, made.plan, { isUnshod: isUnshodOn(film) });
  const whole = `${text.slice(0, end)}\n\n${block}${text.slice(end)}`;
  const complaints = inspect(whole, { ...settings, past: 'as new' })
    .findings.filter(
      ({ at, severity }) =>
        at.start > end && at.end <= end + block.length + 2 && (severity === 'warning' || severity === 'error'),
    )
    .map(({ code, message }) => `${code}: ${message}`);
  return { block, complaints };
}

export const visitOf = (foot: string, plan: Plan): string => planVisit(foot, plan, '2026-03-14', { isUnshod: false });

/** So little placing error that each limit is kept where what was placed keeps it. */
const exact = { mm: 1e-9, px: 1e-9 };

/** The same question with no placing error to speak of, and no spread written at a landmark. */
export function exactly({ text, ...question }: PlanQuestion): PlanQuestion {
  return { ...question, text: text.replaceAll(/ \+- [\d.]+/g, ''), settings: { ...question.settings, spread: exact } };
}

/** A millimetre beyond all the heel that there is: deeper nothing is to be found. */
function topOf(text: string, settings: InspectSettings): number {
  const before = inspect(text, settings).study.films[0]?.readings[0]?.taking.values.get('heel-surplus');
  return Math.max(1, Math.ceil(before?.value ?? 30) + 1);
}

/**
 * The largest heel cut by trying: every half millimetre is written into the case and checked; -0.5 where not even 0 passes. The
 * goal bounds it, and no live sole is taken by what the case predicts. No part of the solver is asked.
 */
export function byBruteForce(question: PlanQuestion): number {
  for (let heel = topOf(question.text, question.settings); heel >= 0; heel -= 0.5)
    if (allows(question, heel)) return heel;
  return -0.5;
}

/**
 * Every heel cut on a plane of its own that passes, deeper than `than`: each half millimetre from every fifth millimetre that lies 5 mm
 * or more behind the toe's contact.
 */
export function deeperOnTwoPlanes(question: PlanQuestion, than: number): { heel: number; from: number }[] {
  const found: { heel: number; from: number }[] = [];
  const { text, foot, wish, settings } = question;
  const { study } = inspect(`${text}\nvisit 2026-03-14\n  plan ${foot}\n    leave toe\n`, settings);
  const farthest = (study.cuts.at(-1)?.before?.get('bearing-length')?.value ?? NaN) - wish.toeBack - 5;
  for (let heel = topOf(question.text, question.settings); heel > than; heel -= 0.5)
    for (let from = 5; from <= farthest; from += 5) if (allows(question, heel, from)) found.push({ heel, from });
  return found;
}

function allows({ text, foot, wish, settings }: PlanQuestion, heel: number, from?: number): boolean {
  const back = wish.toeBack > 0 ? `\n    toe back ${wish.toeBack} mm` : '';
  const bend = from === undefined ? '' : ` from ${from} mm`;
  const block = `visit 2026-03-14\n  plan ${foot}\n    heel down ${heel} mm${bend}${back}`;
  const { study } = inspect(`${text}\n${block}\n`, settings);
  const cut = study.cuts.at(-1);
  const before = cut?.before;
  // A bend in front of the toe leaves nothing to stand on.
  if (!cut?.prediction && before && from !== undefined) return false;
  if (!cut?.prediction || !before) throw new Error(`not predicted:\n${text}`);
  const surplus = before.get('heel-surplus')?.value ?? NaN;
  const angle = cut.prediction.value('palmar-angle')?.value ?? NaN;
  if (wish.goal.kind === 'sole-plane' && heel > surplus + 1e-9) return false;
  if (wish.goal.kind === 'palmar-angle' && heel > 0 && angle < wish.goal.angle - 1e-4) return false;
  const took = Object.values(cut.prediction.soleCut).some((depth) => (depth ?? 0) > 1e-9);
  if ((heel > 0 || wish.toeBack > 0) && took) return false;
  return complaintsOf(text, block, settings).length === 0;
}
