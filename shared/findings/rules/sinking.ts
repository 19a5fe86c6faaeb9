import { watch, type Alarm } from '../../course/alarm.ts';
import { isIll, vetDays } from '../../course/care.ts';
import { levelSeries, type LevelSeries } from '../../course/levels.ts';
import { feet, type FootName } from '../../notation/vocabulary.ts';
import type { Study } from '../../trim/study.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { alarmRemark, ended, since } from '../say-alarm.ts';
import { footWords, say, sentence } from '../wording.ts';

/** mm by which the bone has to lie lower to count at all; two later films within 1 mm of the old mean end an alarm. */
export const sinkingRule = { floor: 2, back: 1 };

export const sinking: Rule = {
  code: 'course/sinking',
  severity: 'error',
  title: 'The bone sinks in the capsule',
  about:
    'A pedal bone that comes to lie lower in the capsule is sinking. In acute founder the founder distance was the best sign of all on a film (Eustace and Cripps 1999). It is judged against the hairline, as a founder distance also grows when the foot merely stands flatter, and over all films of the foot, as a slow sinking hides between two of them.',
  never: 'Call the vet, and write down with `vet seen` when the animal was seen.',
  *onCase(study) {
    for (const foot of feet) yield* ofFoot(foot, study);
  },
};

function* ofFoot(foot: FootName, study: Study): Iterable<CaseRemark> {
  const films = study.series.of(foot, 'lateral');
  const told = new Set<string>();
  for (const series of levelSeries(films, study))
    for (const alarm of watch(series.levels, sinkingRule, vetDays(study)).alarms) {
      // The next best way to measure says once more what the best one has said.
      if (told.has(alarm.ended === null ? 'open' : `ended ${alarm.raised}`)) continue;
      told.add(alarm.ended === null ? 'open' : `ended ${alarm.raised}`);
      const severity = alarm.ended ? 'hint' : alarm.certainty === 'clear' || isIll(foot, study) ? 'error' : 'warning';
      yield alarmRemark(films, alarm, severity, message(alarm, series, foot, severity));
    }
}

function message(alarm: Alarm, series: LevelSeries, foot: FootName, severity: 'error' | 'warning' | 'hint'): string {
  const { rise } = alarm;
  const lower = `${say(rise.by, 'mm')} ± ${rise.sd.toFixed(1)}`;
  const where = sentence(footWords[foot]);
  if (alarm.ended) return `${where}: the bone lay ${lower} lower in the capsule ${since(alarm)}. ${ended(alarm.ended)}`;
  const step = alarm.creeping && alarm.earlier > 1 ? '; each step alone was within the error' : '';
  const does =
    severity === 'error'
      ? alarm.certainty === 'clear'
        ? 'Call the vet today.'
        : 'It may be sinking, and the animal is ill: call the vet today.'
      : 'It may be sinking: tell the vet, and have it filmed again soon.';
  return `${where}: the bone lies ${lower} lower in the capsule ${since(alarm)}${step}. ${does}${notTakenOut(series)}`;
}

/** What could not be taken out of the number, where the hairline's heel is not on the films. */
function notTakenOut({ ruler }: LevelSeries): string {
  switch (ruler) {
    case 'hairline':
      return '';
    case 'wall':
      return ' Measured against the wall, which may have been rasped or flared since: place coronet.heel on each film to measure against the hairline.';
    case 'ground':
      return ' Measured upright: a foot that merely stands flatter looks so too. Place coronet.heel on each film to tell the two apart.';
  }
}
