import { watch } from '../../course/alarm.ts';
import { vetDays } from '../../course/care.ts';
import { errorOfFilms, spreadOf } from '../../course/error-of-films.ts';
import type { FilmLevel } from '../../course/rise.ts';
import { valuesOfFilm } from '../../course/value-of-film.ts';
import { feet } from '../../notation/choices.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import type { Rule } from '../rule.ts';
import { alarmRemark, ended, since } from '../wording/say-alarm.ts';
import { footWords, say, sentence } from '../wording/wording.ts';

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
      for (const alarm of watch(levelsOf(films, study), rotatingRule, vetDays(study)).alarms) {
        const more = `${say(alarm.rise.by, 'deg')} ± ${alarm.rise.sd.toFixed(1)} more rotation`;
        const where = sentence(footWords[foot]);
        const step = alarm.creeping && alarm.earlier > 1 ? '; each step alone was within the error' : '';
        const may = alarm.certainty === 'clear' ? '' : ' perhaps';
        yield alarmRemark(
          films,
          alarm,
          alarm.ended ? 'hint' : 'warning',
          alarm.ended
            ? `${where}: ${more} of bone against wall ${since(alarm)}. ${ended(alarm.ended)}`
            : `${where}:${may} ${more} of bone against wall ${since(alarm)}${step}. Tell the vet. Rotation alone says little about the outcome (Hunt 1993).`,
          name,
        );
      }
    }
  },
};

/** By day: of films of one day the mean. */
function levelsOf(films: readonly StudiedFilm[], study: Study): FilmLevel[] {
  const observed = errorOfFilms(study).ofFilms(name) !== null;
  const days = new Map<number, { values: number[]; variance: number }>();
  for (const film of films) {
    const value = valuesOfFilm(film)?.get(name);
    if (!value || film.day === null) continue;
    const day = days.get(film.day) ?? { values: [], variance: 0 };
    days.set(film.day, day);
    day.values.push(value.value);
    day.variance += spreadOf(value, study) ** 2 + (observed ? 0 : study.change.filmAngle ** 2);
  }
  return [...days].map(([day, { values, variance }]) => ({
    day,
    value: values.reduce((sum, one) => sum + one, 0) / values.length,
    variance: variance / values.length ** 2,
  }));
}
