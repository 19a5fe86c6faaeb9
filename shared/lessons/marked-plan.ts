import { below, type PlanPlace } from '../findings/limits/plan-place.ts';
import { careAt, tryCutAt } from '../findings/limits/planning.ts';
import type { MeasureName } from '../measures/names.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { t } from '../language/words.ts';
import type { Margin } from '../trim/cut-limits.ts';
import { lowerOf } from '../trim/predict.ts';
import { cutOfNothing, isBent, takesNothing, type CutSize } from '../trim/stand.ts';
import type { Study, StudiedCut, StudiedFilm } from '../trim/study.ts';

/** What the plans on one film of a key come to. */
export interface MarkedPlans {
  /** What comes before any cut of this foot, in a sentence: no plan is right then. Null where nothing does. */
  readonly care: string | null;
  /** Why no cut can be judged on the key's foot, in a sentence; null where it can. */
  readonly unjudged: string | null;
  /** The key's own plan; null where it has none, or one that must not be done. */
  readonly key: CutSize | null;
  /** The student's, in the order of the text. */
  readonly plans: readonly MarkedPlan[];
  /** Null where nothing can be judged. */
  readonly agrees: boolean | null;
}

/** A student's plan, laid on the foot as the key has placed it. */
export interface MarkedPlan {
  /** In the student's file, from 1. */
  readonly line: number;
  readonly size: CutSize;
  /** What it leaves there; empty where it cannot be foretold. */
  readonly leaves: readonly LeftValue[];
  /** Why it cannot be foretold, in a sentence; null where it can. */
  readonly cannot: string | null;
  /** The limits that it breaks there. */
  readonly broken: readonly Margin[];
  /** How much more it takes than the key's own plan; null where there is none. */
  readonly off: PlanOff | null;
  /** Null where nothing can be judged. */
  readonly agrees: boolean | null;
}

/** mm more than the key's plan takes; below 0 where less. */
export interface PlanOff {
  readonly heel: number;
  readonly toe: number;
  readonly back: number;
  readonly inside: number;
  readonly outside: number;
}

export interface LeftValue {
  readonly measure: MeasureName;
  readonly unit: MeasureUnit;
  readonly before: number;
  /** On two planes the lower of the two stances. */
  readonly after: number;
}

/** mm that a plan may lie from the key's own, at the heel and at the toe alike. A judgement of ours. */
export const planTolerance = 2;

/** What a plan is foretold to leave. */
const told = ['palmar-angle', 'palmar-angle.bearing', 'sole-depth.tip', 'sole-depth.wing'] as const;

/** A film of a key that plans are judged on. `isNewest`: of its foot, so that what keeps from planning is told there and once. */
export interface PlannedFilm {
  readonly film: StudiedFilm;
  /** The key's, with its reader's places alone. */
  readonly study: Study;
  readonly isNewest: boolean;
}

/**
 * The student's plans on one film, judged where the key has its own plan, or else right below the key's film: on the key's places, with what
 * the key says of the animal, by the one judge of cuts. No plan is a cut of nothing. Null where nobody plans and nothing speaks
 * against planning. `elsewhere`: the student's plans for feet that the key has no film of, told once, with the last film of the key.
 */
export function markedPlans(
  { film, study: key, isNewest }: PlannedFilm,
  student: readonly StudiedCut[],
  elsewhere: readonly StudiedCut[] = [],
): MarkedPlans | null {
  const all = [...student, ...elsewhere];
  // A plan in a file that is lesson and key in one is the student's.
  const theirs = new Set(student.map(({ cut }) => cut));
  const own = key.cuts.filter(({ cut, film: on }) => cut.kind === 'plan' && on?.film === film.film && !theirs.has(cut));
  const [first] = own;
  const place = first ? placeOf(first) : below(film);
  if (!place) return all.length === 0 ? null : unjudgedFor(all, t('The key’s visit has no date.'));
  const uncut = tryCutAt(place, cutOfNothing, key);
  if (typeof uncut === 'string') return all.length === 0 ? null : unjudgedFor(all, uncut);
  const care = uncut.care === '' ? null : uncut.care;
  const lack = care === null ? careAt(place, key) : '';
  if (lack !== '') return all.length === 0 ? null : unjudgedFor(all, lack);
  const model =
    care === null ? (own.map(({ size }) => size).find((size) => mayBeDone(place, size, key)) ?? null) : null;
  if (all.length === 0 && own.length === 0 && (care === null || !isNewest)) return null;
  const plans = student.map((plan) => markedPlan(plan, place, { key, film, care, model, uncut }));
  const wants = model !== null && !takesNothing(model);
  const others = elsewhere.map((plan) => planElsewhere(plan, care));
  const agrees =
    (plans.length === 0 ? !wants : plans.every((plan) => plan.agrees === true)) &&
    others.every((plan) => plan.agrees !== false);
  return { care, unjudged: null, key: model, plans: [...plans, ...others], agrees };
}

/** A plan for a foot that the key has no film of: nobody can tell what it leaves. While care comes first it is wrong all the same. */
function planElsewhere(plan: StudiedCut, care: string | null): MarkedPlan {
  return {
    line: lineOfPlan(plan),
    size: plan.size,
    leaves: [],
    cannot: t('The key has no film of the foot that it is for.'),
    broken: [],
    off: null,
    agrees: care === null ? null : takesNothing(plan.size),
  };
}

type TriedOnKey = Exclude<ReturnType<typeof tryCutAt>, string>;

interface KeyFoot {
  readonly key: Study;
  readonly film: StudiedFilm;
  /** The foot with nothing taken off it. */
  readonly uncut: TriedOnKey;
  readonly care: string | null;
  readonly model: CutSize | null;
}

function markedPlan(plan: StudiedCut, place: PlanPlace, { key, film, uncut, care, model }: KeyFoot): MarkedPlan {
  const { size } = plan;
  const tried = careOnItsDay(plan, place, { key, film }) || tryCutAt(place, size, key);
  const off = model && offFrom(model, size);
  const written = { line: lineOfPlan(plan), size, off };
  if (typeof tried === 'string') return { ...written, leaves: [], cannot: tried, broken: [], agrees: false };
  return {
    ...written,
    leaves: leavesOf(uncut, tried),
    cannot: null,
    broken: tried.broken,
    agrees: care === null ? tried.broken.length === 0 && isNear(size, model, off) : takesNothing(size),
  };
}

/** What comes first on the day of a plan that is later than the key's film and still rests on it, such as that the film is old by then. */
function careOnItsDay(
  { visit, day }: StudiedCut,
  { foot, moment }: PlanPlace,
  { key, film }: Pick<KeyFoot, 'key' | 'film'>,
): string {
  if (day === null || visit.is.date === null || day <= moment.day) return '';
  const then = { foot, moment: { day, at: Infinity }, date: visit.is.date };
  return key.trims.basis(foot, then.moment).film === film ? careAt(then, key) : '';
}

/** Whether a plan is the key's own, nearly: on as many planes, and nothing where that takes nothing. */
function isNear(size: CutSize, model: CutSize | null, off: PlanOff | null): boolean {
  if (!model || !off) return true;
  return (
    isBent(size) === isBent(model) &&
    takesNothing(size) === takesNothing(model) &&
    Object.values(off).every((mm: number) => Math.abs(mm) <= planTolerance + rounding)
  );
}

/** 4.1 less 2.1 is a little more than 2 in the last bit. */
const rounding = 1e-9;

function mayBeDone(place: PlanPlace, size: CutSize, key: Study): boolean {
  const tried = tryCutAt(place, size, key);
  return typeof tried !== 'string' && tried.broken.length === 0;
}

const offFrom = (model: CutSize, size: CutSize): PlanOff => ({
  heel: size.heelDown - model.heelDown,
  toe: size.toeDown - model.toeDown,
  back: size.toeBack - model.toeBack,
  inside: (size.insideDown ?? 0) - (model.insideDown ?? 0),
  outside: (size.outsideDown ?? 0) - (model.outsideDown ?? 0),
});

function leavesOf(uncut: TriedOnKey, { prediction }: TriedOnKey): readonly LeftValue[] {
  return told.flatMap((measure) => {
    const before = uncut.prediction.value(measure);
    const after = lowerOf(prediction, measure);
    return before && after ? [{ measure, unit: after.unit, before: before.value, after: after.value }] : [];
  });
}

function unjudgedFor(student: readonly StudiedCut[], why: string): MarkedPlans {
  return {
    care: null,
    unjudged: why,
    key: null,
    plans: student.map((plan) => ({
      line: lineOfPlan(plan),
      size: plan.size,
      leaves: [],
      cannot: null,
      broken: [],
      off: null,
      agrees: null,
    })),
    agrees: null,
  };
}

function placeOf({ visit, cut, day }: StudiedCut): PlanPlace | null {
  return day === null || visit.is.date === null
    ? null
    : { foot: cut.foot, moment: { day, at: visit.start + cut.head.start }, date: visit.is.date };
}

const lineOfPlan = ({ visit, cut }: StudiedCut): number => visit.line + cut.line + 1;
