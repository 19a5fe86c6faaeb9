import { t } from '../../language/words.ts';
import { bonesOf } from '../../course/bones-of.ts';
import { watch, type Alarm } from '../../course/alarm.ts';
import { byReaders } from '../../course/by-readers.ts';
import { isIll, vetDays } from '../../course/care.ts';
import type { Reader } from '../../course/readers.ts';
import { levelSeries, type LevelSeries } from '../../course/levels.ts';
import { sinkingRule } from '../../course/sinking-rule.ts';
import { feet, type FootName } from '../../notation/choices.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { alarmRemark, ended, overFilms, sayBy, sayReaders, since } from '../wording/say-alarm.ts';
import { sayDoubt } from '../wording/say-bones.ts';
import { sayDay } from '../wording/say-day.ts';
import { footWords, sentence } from '../wording/wording.ts';

export { sinkingRule };

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

/** An alarm of one foot, how gravely it is told, and in which words. */
export interface SinkingTold {
  readonly alarm: Alarm;
  readonly severity: 'error' | 'warning' | 'info' | 'hint';
  /** Readers of the same films do not see it. */
  readonly disputed: boolean;
  /** Without the foot's name before it. */
  readonly message: string;
}

function* ofFoot(foot: FootName, study: Study): Iterable<CaseRemark> {
  const films = study.series.of(foot, 'lateral');
  for (const { alarm, severity, message: words } of sinkingTold(foot, study))
    yield alarmRemark(films, alarm, severity, `${sentence(footWords[foot])}: ${words}`);
}

/** All that is told of a foot's sinking, past and open. Where readers disagree it is told one level lower. */
export function* sinkingTold(foot: FootName, study: Study): Iterable<SinkingTold> {
  const films = study.series.of(foot, 'lateral');
  for (const { told, reader, against } of byReaders(films, (one) => [...seenBy(one, films, study)])) {
    const { alarm, series } = told;
    const usual = alarm.ended ? 'hint' : alarm.certainty === 'clear' || isIll(foot, study) ? 'error' : 'warning';
    const severity = against.length === 0 ? usual : usual === 'error' ? 'warning' : 'info';
    const accused = bonesOf(foot, study).filter(
      ({ accused: is, film: { day } }) => is && day !== null && day >= alarm.since && day <= alarm.asOf,
    );
    const said = `${message(alarm, series, severity)}${sayReaders(reader, against)}`;
    yield {
      alarm,
      severity,
      disputed: against.length > 0,
      message: accused.length > 0 ? `${sayDoubt(accused)}. ${sentence(said)}` : said,
    };
  }
}

interface SeenSinking {
  readonly alarm: Alarm;
  readonly series: LevelSeries;
}

/** By one reader's placings. */
function* seenBy(reader: Reader, films: readonly StudiedFilm[], study: Study): Iterable<SeenSinking> {
  const told = new Set<string>();
  for (const series of levelSeries(films, study, reader))
    for (const alarm of watch(series.levels, sinkingRule, vetDays(study)).alarms) {
      // The next best way to measure says once more what the best one has said.
      if (told.has(alarm.ended === null ? 'open' : `ended ${alarm.raised}`)) continue;
      told.add(alarm.ended === null ? 'open' : `ended ${alarm.raised}`);
      yield { alarm, series };
    }
}

function message(alarm: Alarm, series: LevelSeries, severity: SinkingTold['severity']): string {
  const { rise } = alarm;
  const by = sayBy(rise, 'mm');
  if (alarm.ended)
    return t(
      'on {0} the bone lay {1} lower in the capsule {2}. {3}',
      sayDay(alarm.asOf),
      by,
      since(alarm),
      ended(alarm.ended),
    );
  const does =
    severity === 'error'
      ? alarm.certainty === 'clear'
        ? t('Call the vet today.')
        : t('It may be sinking, and the animal is ill: call the vet today.')
      : t('It may be sinking: tell the vet, and have it filmed again soon.');
  const over = overFilms(alarm);
  const step = alarm.creeping && alarm.earlier > 1 ? t('; no single step was more than the error') : '';
  const how = over
    ? t('{0} the bone has gone down by {1} in the capsule', over, by)
    : t('the bone lies {0} lower in the capsule {1}', by, since(alarm));
  return `${how}${step}. ${does}${notTakenOut(series)}`;
}

/** What could not be taken out of the number, where the hairline's heel is not on the films. */
export function notTakenOut({ ruler }: Pick<LevelSeries, 'ruler'>): string {
  switch (ruler) {
    case 'hairline':
      return '';
    case 'wall':
      return t(
        ' Measured against the wall, which may have been rasped or flared since: place coronet.heel on each film to measure against the hairline.',
      );
    case 'ground':
      return t(
        ' Measured upright: a foot that merely stands flatter looks so too. Place coronet.heel on each film to tell the two apart.',
      );
  }
}
