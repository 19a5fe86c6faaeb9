import { t } from '../../language/words.ts';
import { grownAt, isYoung } from '../../trim/case-animal.ts';
import { dateOfDay } from '../../notation/dates.ts';
import type { Rule } from '../rule.ts';
import { sayDate } from '../wording/say-day.ts';

export const tooYoung: Rule = {
  code: 'range/too-young',
  severity: 'hint',
  title: 'Too young to be judged by adult figures',
  about: `Under ${grownAt} months, by the day on which it was foaled and that of the film, an animal is held against no published limit of a length that shrinks with it (founder distance, wall to bone): all were found on grown animals. Nor is there a lowest palmar angle, so that no plan is solved down to it, and a temperature is not asked about. The sole, the shares and the other angles are judged as in grown animals: a thin sole is no safer in a foal.`,
  *onCase({ films, animal: ages, record: { animal } }) {
    const newest = films.reduce<(typeof films)[number] | null>(
      (last, film) => (film.day !== null && film.day >= (last?.day ?? -Infinity) ? film : last),
      null,
    );
    if (!newest || newest.day === null || !isYoung(ages, newest.day)) return;
    yield {
      start: newest.visit.start,
      at: newest.film.head,
      message: t(
        'On {0} this animal (foaled {1}) is under {2} months: too young to be judged by adult figures. How low the bone lies and how far the wall stands off it are held against none, no lowest palmar angle is taken, so that no plan is worked out, and a temperature is not asked about; the sole, the shares and the other angles are judged as ever.',
        sayDate(dateOfDay(newest.day)),
        sayDate(animal?.is.foaled ?? ''),
        grownAt,
      ),
    };
  },
};
