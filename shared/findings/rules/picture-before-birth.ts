import { sayChoice } from '../../language/choice-words.ts';
import { t } from '../../language/words.ts';
import { daysOf } from '../../notation/dates.ts';
import type { Rule } from '../rule.ts';
import { sayDay, sayDate } from '../wording/say-day.ts';

export const pictureBeforeBirth: Rule = {
  code: 'picture/before-birth',
  severity: 'warning',
  title: 'Film from before the birth',
  about:
    'A film is dated before the day on which the animal was foaled. One of the two dates is wrong, or the film is of another animal. Until it is mended the film is judged as that of a grown animal: no limit is loosened by a slip of a date.',
  *onCase({ films, record: { animal } }) {
    const foaled = animal?.is.foaled ?? null;
    const born = foaled === null ? null : (daysOf(foaled)?.first ?? null);
    if (foaled === null || born === null) return;
    for (const { film, visit, day } of films) {
      if (day === null || day >= born) continue;
      yield {
        start: visit.start,
        at: film.head,
        message: t(
          'This {0} is dated {1}, before the animal was foaled ({2}). One of the two dates is wrong, or it is of another animal.',
          sayChoice(film.kind),
          sayDay(day),
          sayDate(foaled),
        ),
      };
    }
  },
};
