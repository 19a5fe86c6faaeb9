import type { FootName } from '../notation/choices.ts';
import type { Study } from '../trim/study.ts';
import { watch, type AlarmRule } from './alarm.ts';
import { vetDays } from './care.ts';
import { levelSeries } from './levels.ts';

/** mm by which the bone has to lie lower to count at all; two later films within 1 mm of the old mean end an alarm. */
export const sinkingRule: AlarmRule = { floor: 2, back: 1 };

/**
 * Where the films of a foot begin anew as the vet has seen the animal after it was told of sinking: the day of the newest
 * film that the vet could know. Null where no alarm was closed so.
 */
export function beginsAnew(foot: FootName, study: Study): number | null {
  const films = study.series.of(foot, 'lateral');
  const starts = levelSeries(films, study).flatMap(({ levels }) =>
    watch(levels, sinkingRule, vetDays(study)).alarms.flatMap(({ ended, raised }) => {
      if (ended?.by !== 'vet') return [];
      const known = Math.max(raised, ended.day - 1);
      return levels.findLast(({ day }) => day <= known)?.day ?? [];
    }),
  );
  return starts.length === 0 ? null : Math.max(...starts);
}
