import { shownDate } from '../../language/dates.ts';
import { t } from '../../language/words.ts';
import type { FootName } from '../../notation/choices.ts';
import type { Placed, Visit } from '../../record/schema.ts';
import type { Rule } from '../rule.ts';
import { footWords, sentence } from '../wording/wording.ts';

const pairs: readonly (readonly [FootName, FootName])[] = [
  ['LF', 'RF'],
  ['LH', 'RH'],
];

/** A pair of which one foot was never filmed, in an animal that was lame. */
export const filmOtherFoot: Rule = {
  code: 'film/other-foot',
  severity: 'info',
  title: 'Other foot of the pair never filmed',
  about:
    'An animal was graded Obel 1 or more, had a modified Obel score of 1 or more, or was lame over ground on this pair, and only one foot of the pair was ever filmed. Both feet of a pair are usually filmed (common practice, no source): the sounder one is what the other is compared with, and it may be ill as well. A grade or score that names no foot is taken to be of the fore feet. Whether to film is for the vet to say.',
  *onCase({ films, record }) {
    for (const pair of pairs) {
      const filmed = films.filter(({ film }) => film.kind === 'film' && pair.includes(film.foot));
      const newest = filmed.at(-1);
      if (!newest || filmed.some(({ film }) => film.foot !== newest.film.foot)) continue;
      const lame = record.visits.findLast((visit) => gradeOf(visit, pair) !== null);
      const grade = lame && gradeOf(lame, pair);
      if (!lame || !grade) continue;
      const [one, other] = newest.film.foot === pair[0] ? pair : [pair[1], pair[0]];
      const when = lame.is.date === null ? '' : t(' on {0}', shownDate(lame.is.date));
      yield {
        start: newest.visit.start,
        at: newest.film.head,
        message: t(
          '{0}: filmed, while the {1} never was, in an animal with {2}{3}. Both feet of a pair are usually filmed (common practice, no source); whether to is for the vet to say.',
          sentence(footWords[one]),
          footWords[other],
          grade,
          when,
        ),
      };
    }
  },
};

/** `Obel 2`; null where nothing is said of a lameness of this pair. */
function gradeOf({ is: { obel, meier, lameness } }: Placed<Visit>, pair: readonly FootName[]): string | null {
  const isFore = pair.includes('LF');
  if (isFore && obel && obel.value >= 1) return t('Obel {0}', obel.value);
  if (isFore && !obel && meier && meier.value >= 1) return t('a modified Obel score of {0}', meier.value);
  const told = lameness.find(
    ({ feet, grade }) => grade >= 1 && (feet.length === 0 ? isFore : feet.some((foot) => pair.includes(foot))),
  );
  return told ? t('lameness {0} of 5', told.grade) : null;
}
