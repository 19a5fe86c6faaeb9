import { spoken } from '../language/rows.ts';
import { t } from '../language/words.ts';
import { say, sayLimit, toBearing } from '../findings/wording/wording.ts';
import type { Goal, Plan } from '../trim/plan.ts';
import type { CutSize } from '../trim/stand.ts';

/** Whether the foot that a plan goes by was taken off the shoe of its film. */
interface PlannedFoot {
  readonly isUnshod: boolean;
}

const goals: Readonly<Record<Goal['kind'], (goal: Goal, foot: PlannedFoot) => string>> = {
  'sole-plane': () => t('to the live sole plane'),
  'palmar-angle': (goal, foot) =>
    toBearing(t('to a palmar angle of {0}°', goal.kind === 'palmar-angle' ? goal.angle : 0), foot),
  most: () => t('as much as one visit may take'),
};

export const sayGoal = (goal: Goal, foot: PlannedFoot): string => goals[goal.kind](goal, foot);

/** A plan as a block of a visit. What would follow it is no notation: see `sayOutlook`. */
export function planBlock(foot: string, { goal, size }: Plan, on: PlannedFoot): string {
  return [`  plan ${foot}`, ...cutLines(size), `    why   "${sayGoal(goal, on)}"`].join('\n');
}

/** The same as a visit of its own, ready to stand at the end of a case file. */
export function planVisit(foot: string, plan: Plan, date: string, on: PlannedFoot): string {
  return `visit ${date} "planned"\n${planBlock(foot, plan, on)}`;
}

function cutLines({ heelDown, heelFrom, toeDown, toeBack }: CutSize): string[] {
  return [
    `    heel  down ${heelDown} mm${heelFrom === undefined ? '' : ` from ${heelFrom} mm`}`,
    ...(toeDown > 0 ? [`    toe   down ${toeDown} mm`] : []),
    ...(toeBack > 0 ? [`    toe   back ${toeBack} mm`] : []),
    ...(toeDown === 0 && toeBack === 0 ? ['    leave toe sole'] : []),
  ];
}

/** `4 mm (7 mm at even odds)`, `7.5 mm from 90 mm (8 mm at even odds)`; the second number only where it is another. */
export function sayBothOdds({ size, evenOdds }: Pick<Plan, 'size' | 'evenOdds'>): string {
  const heel = sayLimit(size.heelDown, 'mm');
  const sure = size.heelFrom === undefined ? heel : t('{0} from {1}', heel, sayLimit(size.heelFrom, 'mm'));
  return evenOdds > size.heelDown ? t('{0} ({1} at even odds)', sure, sayLimit(evenOdds, 'mm')) : sure;
}

/** What would follow, in words and numbers; empty where the goal is reached, or none was named. */
export function sayOutlook({ outlook, left }: Plan): string {
  if (!outlook) return '';
  const next = say(outlook.next, 'mm', 0);
  if (outlook.visits !== null)
    return t(
      'Then, on the next film, about {0} more, with what grows until then; about {1} visits in all.',
      next,
      spelled(outlook.visits),
    );
  return left === null
    ? t(
        'Then, on the next film, about {0} more, with what grows until then. The limits as they stand do not let all of it off: what the sole gains in depth decides.',
        next,
      )
    : t(
        'Then, on the next film, about {0} more, with what grows until then. Of the {1} that are left now the limits as they stand do not let all off: what the sole gains in depth decides.',
        next,
        say(left, 'mm', 0),
      );
}

const numbers = spoken(['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']);

const spelled = (count: number): string => numbers[count] ?? String(count);
