import { t } from '../../language/words.ts';
import { watch } from '../../course/alarm.ts';
import { vetDays } from '../../course/care.ts';
import { changeOfValue } from '../../course/error-of-films.ts';
import { levelSeries } from '../../course/levels.ts';
import { valuesOfFilm } from '../../course/value-of-film.ts';
import { feet, type FootName } from '../../notation/choices.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDay } from '../wording/say-day.ts';
import { footWords, say, sayPlusMinus, sentence } from '../wording/wording.ts';
import { sinkingRule } from './sinking.ts';

/** A measure as it stands on the ground, and the same in the capsule. */
const pairs = [
  ['founder-distance', 'founder-distance.level'],
  ['coronet-extensor', 'coronet-extensor.level'],
] as const;

/** A founder distance that has grown only because the foot stands flatter. */
export const standingOtherwise: Rule = {
  code: 'course/stands-flatter',
  severity: 'hint',
  title: 'Founder distance grown with the stance, not in the capsule',
  about:
    'A founder distance is a vertical: when the heels come down it grows, though nothing moves in the capsule. Where that is all there is, it is said, so that nobody takes a good trim for a sinking bone.',
  *onCase(study) {
    for (const foot of feet) {
      const remark = ofFoot(foot, study);
      if (remark) yield remark;
    }
  },
};

function ofFoot(foot: FootName, study: Study): CaseRemark | null {
  const films = study.series.of(foot, 'lateral');
  const newest = films.at(-1);
  if (!newest || isSinking(films, study)) return null;
  // Against the film before, and where trims went in small steps against the first.
  const before = films.findLast(({ day }) => (day ?? 0) < (newest.day ?? 0));
  const earlier = [...new Set([before, films[0]])].filter((film) => film !== undefined && film !== newest);
  for (const film of earlier) {
    const remark = film && since(film, newest, study);
    if (remark) return remark;
  }
  return null;
}

function since(before: StudiedFilm, newest: StudiedFilm, study: Study): CaseRemark | null {
  const { foot } = newest.film;
  const [was, now] = [valuesOfFilm(before), valuesOfFilm(newest)];
  for (const [standing, level] of pairs) {
    const [from, to] = [was?.get(standing), now?.get(standing)];
    const [levelFrom, levelTo] = [was?.get(level), now?.get(level)];
    const [hairlineFrom, hairlineTo] = [was?.get('coronet-angle'), now?.get('coronet-angle')];
    if (!from || !to || !levelFrom || !levelTo || !hairlineFrom || !hairlineTo) continue;
    const change = changeOfValue(from, to, study, [before, newest]);
    const inside = changeOfValue(levelFrom, levelTo, study, [before, newest]);
    const turn = hairlineTo.value - hairlineFrom.value;
    if (!change.clear || change.difference <= 0 || inside.clear || turn <= 0) continue;
    return {
      start: newest.visit.start,
      at: newest.film.head,
      measure: standing,
      value: to.value,
      message: t(
        '{0}: {1} is {2} more than {3}, as the foot stands {4} flatter; in the capsule it has changed by {5}.',
        sentence(footWords[foot]),
        to.measure.words,
        say(change.difference, 'mm'),
        before.day === null ? t('before') : t('on {0}', sayDay(before.day)),
        say(turn, 'deg', 0),
        sayPlusMinus({ value: inside.difference, sd: inside.sd, unit: 'mm' }),
      ),
    };
  }
  return null;
}

function isSinking(films: readonly StudiedFilm[], study: Study): boolean {
  return levelSeries(films, study).some(({ levels }) =>
    watch(levels, sinkingRule, vetDays(study)).alarms.some(({ ended }) => ended === null),
  );
}
