import { sayChoice } from '../../language/choice-words.ts';
import { t } from '../../language/words.ts';
import type { Study, StudiedFilm } from '../../trim/study.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDay } from '../wording/say-day.ts';
import { footWords } from '../wording/wording.ts';
import { samePath } from '../../picture/same-path.ts';

export const pictureTwice: Rule = {
  code: 'picture/twice',
  severity: 'warning',
  title: 'One picture for two films',
  about:
    'One picture stands under two feet, two views or two days. It was taken once: one of the two films names the wrong picture, and what is compared between them is one foot on one day. A picture is known by its path from this file, whatever the case of its letters.',
  *onCase(study) {
    yield* twice(study);
  },
};

function* twice({ films }: Pick<Study, 'films'>): Iterable<CaseRemark> {
  const first = new Map<string, StudiedFilm>();
  for (const studied of films) {
    const { film, visit, day } = studied;
    const path = samePath(film.path.text);
    const before = first.get(path);
    if (!before) {
      first.set(path, studied);
      continue;
    }
    const under = (['foot', 'view'] as const).some((what) => before.film[what] !== film[what]);
    if (!under && before.day === day) continue;
    const otherView = before.film.view !== film.view;
    const { start } = before.visit;
    const at = before.film.path.at;
    yield {
      start: visit.start,
      at: film.path.at,
      message: t(
        'This picture is the {0} of {1} already; here it is that of {2}. It was taken once: one of the two names the wrong picture.',
        sayChoice(before.film.kind),
        called(before, otherView),
        called(studied, otherView),
      ),
      related: [
        { at: { start: start + at.start, end: start + at.end }, message: t('The other film of this picture.') },
      ],
    };
  }
}

/** `the left fore of 4 March 2026`, with its view where that is what differs. */
function called({ film, day }: StudiedFilm, withView: boolean): string {
  return t(
    'the {0}{1}{2}',
    footWords[film.foot],
    withView ? `, ${sayChoice(film.view)},` : '',
    day === null ? '' : t(' of {0}', sayDay(day)),
  );
}
