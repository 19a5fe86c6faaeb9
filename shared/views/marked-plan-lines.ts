import { sayBroken, saySize } from '../findings/wording/say-cut.ts';
import { say, sentence } from '../findings/wording/wording.ts';
import { t } from '../language/words.ts';
import type { MarkedPlan, MarkedPlans, PlanOff } from '../lessons/marked-plan.ts';
import { planTolerance } from '../lessons/marked-plan.ts';
import { findMeasure } from '../measures/registry.ts';
import { takesNothing, type CutSize } from '../trim/stand.ts';

/** What `mark` says of a student's plans on one film: care first, then each plan, what it breaks, leaves, and how far it lies from the key's. */
export function planLines(marked: MarkedPlans | null): string[] {
  if (!marked) return [];
  const { care, unjudged, key, plans } = marked;
  if (unjudged !== null) return [t('    plans cannot be judged on the key’s foot: {0}', unjudged)];
  if (plans.length === 0) return [withoutPlan(care, key)];
  const first = care === null ? [] : [t('    no plan may be written here: {0}', care)];
  return [...first, ...plans.flatMap((plan) => linesOf(plan, key, care !== null))];
}

function withoutPlan(care: string | null, key: CutSize | null): string {
  if (care !== null) return t('    no plan is written, and none may be: {0}', care);
  if (key === null) return t('    no plan is written, and the key’s own must not be done');
  return takesNothing(key)
    ? t('    no plan is written, and the key’s takes nothing off')
    : t('    no plan is written; in the key: {0}', saySize(key));
}

function linesOf(plan: MarkedPlan, key: CutSize | null, isBarred: boolean): string[] {
  const title = t('    plan in line {0}, {1}', plan.line, saySize(plan.size));
  if (plan.cannot !== null) return [t('{0}: cannot be foretold on the key’s foot. {1}', title, plan.cannot)];
  const isUnshod = plan.leaves.some(({ measure }) => measure === 'palmar-angle.bearing');
  const broken = sayBroken(plan.broken, { isUnshod });
  const leaves = plan.leaves.map(({ measure, unit, before, after }) =>
    t('{0} {1}, before {2}', findMeasure(measure)?.words ?? measure, say(after, unit), say(before, unit)),
  );
  const judged =
    broken.length > 0
      ? t('{0}: breaks a limit on the key’s foot: {1}', title, broken.join('; '))
      : isBarred
        ? t('{0}: not to be done', title)
        : t('{0}: keeps every limit on the key’s foot', title);
  return [
    judged,
    ...(leaves.length > 0 ? [t('      {0}', sentence(t('it leaves {0}', leaves.join('; '))))] : []),
    ...(plan.off && key ? [againstKey(plan, plan.off, key)] : []),
  ];
}

function againstKey({ size }: MarkedPlan, off: PlanOff, key: CutSize): string {
  const its = saySize(key);
  if ((size.heelFrom === undefined) !== (key.heelFrom === undefined))
    return size.heelFrom === undefined
      ? t('      The key’s plan cuts the heel on a plane of its own: {0}', its)
      : t('      The key’s plan cuts on one plane: {0}', its);
  const apart = offWords(off);
  const far = Object.values(off).some((mm: number) => Math.abs(mm) > planTolerance + 1e-9);
  if (apart.length === 0) return t('      The same as the key’s plan: {0}', its);
  return far
    ? t('      {0} than in the key’s plan, {1}; {2} are allowed', apart.join(', '), its, say(planTolerance, 'mm'))
    : t('      {0} than in the key’s plan, {1}: near enough', apart.join(', '), its);
}

function offWords({ heel, toe, back, inside, outside }: PlanOff): string[] {
  return [
    ...apart(heel, (mm) => t('{0} more off the heel', mm), (mm) => t('{0} less off the heel', mm)), // prettier-ignore
    ...apart(toe, (mm) => t('{0} more off the toe', mm), (mm) => t('{0} less off the toe', mm)), // prettier-ignore
    ...apart(back, (mm) => t('the toe {0} further back', mm), (mm) => t('the toe {0} less far back', mm)), // prettier-ignore
    ...apart(inside, (mm) => t('{0} more off the inner side', mm), (mm) => t('{0} less off the inner side', mm)), // prettier-ignore
    ...apart(outside, (mm) => t('{0} more off the outer side', mm), (mm) => t('{0} less off the outer side', mm)), // prettier-ignore
  ];
}

function apart(mm: number, more: (mm: string) => string, less: (mm: string) => string): string[] {
  if (Math.abs(mm) < 0.05) return [];
  return [mm > 0 ? more(say(mm, 'mm')) : less(say(-mm, 'mm'))];
}
