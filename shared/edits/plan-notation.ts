import { dateOfDay, dayNumber } from '../notation/dates.ts';
import type { Goal, Plan, PlanStage } from '../trim/plan.ts';

const goals: Readonly<Record<Goal['kind'], (goal: Goal) => string>> = {
  'sole-plane': () => 'to the live sole plane',
  'palmar-angle': (goal) => `to a palmar angle of ${goal.kind === 'palmar-angle' ? goal.angle : 0}°`,
  most: () => 'as much as one visit may take',
};

export const sayGoal = (goal: Goal): string => goals[goal.kind](goal);

/** The first stage as a `plan` block of a visit, the later ones as prose in it: what a visit can hold. */
export function planBlock(foot: string, goal: Goal, { stages }: Plan, today: string | null): string {
  const [first, ...later] = stages;
  if (!first) return '';
  const step = stages.length > 1 ? `stage 1 of ${stages.length} ` : '';
  const lines = [`  plan ${foot}`, ...cutLines(first), `    why   "${step}${sayGoal(goal)}"`];
  later.forEach((stage, index) =>
    lines.push(`    | Stage ${index + 2}${onDay(today, stage)}: ${cutWords(stage)}, what grew since taken off first.`),
  );
  return lines.join('\n');
}

/** Every stage as a visit of its own, ready to stand at the end of a case file. */
export function planVisits(foot: string, goal: Goal, { stages }: Plan, today: string): string {
  return stages
    .map((stage, index) =>
      [
        `visit ${dayLater(today, stage.day)} "planned"`,
        `  plan ${foot}`,
        ...cutLines(stage),
        `    why   "${stages.length > 1 ? `stage ${index + 1} of ${stages.length} ` : ''}${sayGoal(goal)}"`,
      ].join('\n'),
    )
    .join('\n\n');
}

function cutLines({ size }: PlanStage): string[] {
  return [
    `    heel  down ${size.heelDown} mm`,
    ...(size.toeDown > 0 ? [`    toe   down ${size.toeDown} mm`] : []),
    ...(size.toeBack > 0 ? [`    toe   back ${size.toeBack} mm`] : []),
    ...(size.toeDown === 0 && size.toeBack === 0 ? ['    leave toe sole'] : []),
  ];
}

function cutWords({ size }: PlanStage): string {
  return `heel down ${size.heelDown} mm${size.toeDown > 0 ? `, toe down ${size.toeDown} mm` : ''}`;
}

const onDay = (today: string | null, { day }: PlanStage): string =>
  today === null ? ` after ${day / 7} weeks` : ` on ${dayLater(today, day)}`;

function dayLater(today: string, days: number): string {
  const from = dayNumber(today);
  return from === null ? today : dateOfDay(from + days);
}
