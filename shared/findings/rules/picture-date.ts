import { sayChoice } from '../../language/choice-words.ts';
import { t } from '../../language/words.ts';
import { dayNumber } from '../../notation/dates.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import type { Rule } from '../rule.ts';
import { sayDay } from '../wording/say-day.ts';
import { footWords } from '../wording/wording.ts';

/** The newest picture of a foot and view among the visits that are read already, and of the visit that is read now. */
interface Newest {
  visit: number;
  earlier: StudiedFilm | null;
  here: StudiedFilm | null;
}

export const pictureDate: Rule = {
  code: 'picture/date',
  severity: 'warning',
  title: 'Film dated out of its visit',
  about:
    'A film is dated after the visit that it stands in, or before the film of an earlier visit. Films are compared in the order of their days, so a slip in the year of `taken` makes the newest film the oldest, and hides what has changed since. If the date is right, accept this with the reason.',
  *onCase({ films }) {
    const known = new Map<string, Newest>();
    for (const studied of films) {
      const { film, visit, day } = studied;
      if (day === null) continue;
      const written = visit.is.date === null ? null : dayNumber(visit.is.date);
      const key = `${film.foot} ${film.view} ${film.kind}`;
      let newest = known.get(key);
      if (!newest) known.set(key, (newest = { visit: visit.start, earlier: null, here: null }));
      if (newest.visit !== visit.start) {
        newest.earlier = later(newest.earlier, newest.here);
        [newest.visit, newest.here] = [visit.start, null];
      }
      const after = written !== null && day > written;
      // One that is itself dated after its visit proves nothing of others.
      if (!after) newest.here = later(newest.here, studied);
      const { earlier } = newest;
      const before = film.taken !== null && earlier?.day != null && day < earlier.day && day !== written;
      if (!after && !before) continue;
      yield {
        start: visit.start,
        at: film.head,
        message: after
          ? t(
              'This {0} is dated {1}, after the visit that it stands in ({2}). Films are compared by their days: look at the year of «taken», and of the visit.',
              sayChoice(film.kind),
              sayDay(day),
              sayDay(written),
            )
          : t(
              'This {0} is dated {1}, before one of the {2} in an earlier visit ({3}), and is taken for the older one: what has changed since may stay unseen. Look at the year of «taken».',
              sayChoice(film.kind),
              sayDay(day),
              footWords[film.foot],
              sayDay(earlier?.day ?? day),
            ),
        related:
          after || !earlier
            ? []
            : [
                {
                  at: {
                    start: earlier.visit.start + earlier.film.head.start,
                    end: earlier.visit.start + earlier.film.head.end,
                  },
                  message: t('The film of an earlier visit, dated later.'),
                },
              ],
      };
    }
  },
};

function later(one: StudiedFilm | null, other: StudiedFilm | null): StudiedFilm | null {
  if (!one || !other) return one ?? other;
  return (other.day ?? 0) > (one.day ?? 0) ? other : one;
}
