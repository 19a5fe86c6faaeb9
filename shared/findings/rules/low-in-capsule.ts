import { t } from '../../language/words.ts';
import { counted, type VetVisit } from '../../course/vet-seen.ts';
import { feet } from '../../notation/choices.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDate } from '../wording/say-day.ts';
import { list } from '../wording/wording.ts';
import { rangeRules } from './range.ts';

/**
 * What is told of a bone that lies low, in two codes: how low it lies may be lived with, that it lies very low on the newest
 * film may not, and stays open until the vet has seen the animal.
 */

const together = rangeRules.find(({ code }) => code === 'range/low-in-capsule');
if (!together) throw new Error('no rule tells of a bone that lies low');

const isVeryLow = ({ severity, past }: CaseRemark): boolean => severity === 'error' && !past;

export const lowInCapsule: Rule = {
  ...together,
  *onCase(study) {
    const filmAt = filmsByPlace(study);
    for (const remark of together.onCase?.(study) ?? [])
      if (!isVeryLow(remark)) yield { ...remark, message: `${remark.message}${compare(filmAt(remark), study)}` };
  },
};

export const veryLow: Rule = {
  code: 'range/very-low-in-capsule',
  severity: 'error',
  title: 'Bone very low in the capsule',
  about:
    'On the newest film of a foot the bone lies clearly lower than the limit that calls for the vet (founder distance over 15 mm, at any height of the animal: a limit that was scaled down is never an error). One film cannot tell a bone that sinks from one that has always lain low, so the vet has to look. It stays an open alarm until a line `vet seen` of the day of the film or later.',
  never: 'Ask the vet, and write down with `vet seen` when the animal was seen.',
  *onCase(study) {
    const filmAt = filmsByPlace(study);
    let seen: VetVisit[] | null = null;
    for (const remark of together.onCase?.(study) ?? []) {
      if (!isVeryLow(remark)) continue;
      seen ??= counted(study.record.visits);
      const film = filmAt(remark);
      const by = film && seen.find((one) => isSince(one, film));
      yield by
        ? { ...remark, severity: 'hint', message: t('{0} Seen by the vet on {1}.', remark.message, sayDate(by.date)) }
        : remark;
    }
  },
};

/** Whether the vet came on the day of a film or later; of a film without a day, by what is written in its visit or after it. */
function isSince({ day, visit }: VetVisit, film: StudiedFilm): boolean {
  return film.day === null ? visit.start >= film.visit.start : day >= film.day;
}

function filmsByPlace({ visits }: Pick<Study, 'visits'>): (remark: CaseRemark) => StudiedFilm | undefined {
  const byStart = new Map(visits.map((one) => [one.visit.start, one]));
  return ({ start, at }) =>
    byStart.get(start)?.films.find(({ film }) => film.at.start <= at.start && at.end <= film.at.end);
}

/** What a film may be held against, where there is any. */
function compare(own: StudiedFilm | undefined, { series }: Pick<Study, 'series'>): string {
  if (!own || own.film.view !== 'lateral') return '';
  const first = series.of(own.film.foot, 'lateral')[0]?.day ?? null;
  const held = [
    ...(feet.some((foot) => foot !== own.film.foot && series.of(foot, 'lateral').length > 0)
      ? [t('the other feet')]
      : []),
    ...(first !== null && own.day !== null && first < own.day ? [t('earlier films of this one')] : []),
  ];
  return held.length === 0 ? '' : t(' Compare with {0}.', list(held));
}
