import { t } from '../../language/words.ts';
import { watch, type Alarm } from '../../course/alarm.ts';
import { byReaders } from '../../course/by-readers.ts';
import { vetDays } from '../../course/care.ts';
import { errorOfFilms, spreadOf } from '../../course/error-of-films.ts';
import { errorOfMeasure } from '../../course/followed.ts';
import { meanOfDay, type LevelOnFilm } from '../../course/mean-of-day.ts';
import type { Reader } from '../../course/readers.ts';
import type { FilmLevel } from '../../course/rise.ts';
import { feet } from '../../notation/choices.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import type { Rule } from '../rule.ts';
import { alarmRemark, ended, overFilms, sayBy, sayReaders, since } from '../wording/say-alarm.ts';
import { footWords, sentence } from '../wording/wording.ts';

/** Degrees. */
export const rotatingRule = { floor: 2, back: 1 };

const name = 'capsular-rotation';

export const rotating: Rule = {
  code: 'course/rotating',
  severity: 'warning',
  title: 'Bone and wall part further',
  about:
    'Bone and wall part further over the films of a foot. Whether the tendon pulls or the wall is levered away is disputed; that it goes on is what the vet has to know. Rotation alone says little about the outcome (Hunt 1993).',
  *onCase(study) {
    for (const foot of feet) {
      const films = study.series.of(foot, 'lateral');
      for (const { told, reader, against } of byReaders(films, (one) => seenBy(one, films, study))) {
        const { alarm } = told;
        const severity = alarm.ended ? 'hint' : against.length > 0 ? 'info' : 'warning';
        yield alarmRemark(
          films,
          alarm,
          severity,
          `${sentence(footWords[foot])}: ${message(alarm)}${sayReaders(reader, against)}`,
          name,
        );
      }
    }
  },
};

function message(alarm: Alarm): string {
  const by = sayBy(alarm.rise, 'deg');
  if (alarm.ended) return t('{0} more rotation of bone against wall {1}. {2}', by, since(alarm), ended(alarm.ended));
  const may = alarm.certainty === 'clear' ? t('have') : t('may have');
  const over = overFilms(alarm);
  const step = alarm.creeping && alarm.earlier > 1 ? t('; no single step was more than the error') : '';
  const how = over
    ? t('{0} bone and wall {1} parted by {2} more', over, may, by)
    : t('bone and wall {0} parted by {1} more {2}', may, by, since(alarm));
  return t('{0}{1}. Tell the vet. Rotation alone says little about the outcome (Hunt 1993).', how, step);
}

function seenBy(reader: Reader, films: readonly StudiedFilm[], study: Study): { alarm: Alarm }[] {
  return watch(levelsOf(films, study, reader), rotatingRule, vetDays(study)).alarms.map((alarm) => ({ alarm }));
}

/** By day: of films of one day the mean. */
function levelsOf(films: readonly StudiedFilm[], study: Study, reader: Reader): FilmLevel[] {
  const errors = errorOfFilms(study);
  const isObserved = errors.ofFilms(name) !== null;
  const isShared = !isObserved && errors.ofReadings(name) === null;
  const days = new Map<number, LevelOnFilm[]>();
  for (const film of films) {
    const studied = reader.reads(film);
    const value = studied?.taking.values.get(name);
    if (!studied || !value || film.day === null) continue;
    const day = days.get(film.day) ?? [];
    days.set(film.day, day);
    day.push({
      value: value.value,
      variance: spreadOf(value, study) ** 2 + (isObserved ? 0 : study.change.filmAngle ** 2),
      error: isShared ? errorOfMeasure(value.measure, film, studied, study.series) : null,
    });
  }
  return [...days].map(([day, found]) => meanOfDay(day, found));
}
