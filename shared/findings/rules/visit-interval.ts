import { t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import { dayNumber } from '../../notation/dates.ts';
import type { Fix } from '../../notation/problems.ts';
import type { Span } from '../../notation/tree.ts';
import { feet } from '../../notation/choices.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import { linesFor, passed } from '../limits/limits.ts';
import type { Rule, RuleContext } from '../rule.ts';

/** Days after which a film says nothing about the foot of today any more. */
const recent = 120;

const distorted: readonly MeasureName[] = ['capsular-rotation', 'sole-depth.tip', 'founder-distance'];

export const longInterval: Rule = {
  code: 'visit/interval',
  severity: 'warning',
  title: 'Long time to the next visit',
  about:
    'A distorted foot grows back into its distortion. Four to six weeks, not over six, is what a study of 26 horses advises even for sound ones (Lesniak and others, Animals 2017;7:29).',
  *onVisit({ visit, day: today }, study) {
    const { next } = visit.is;
    if (!next || today === null) return;
    const then = 'date' in next ? dayNumber(next.date) : today + next.after.base;
    if (then === null || then - today <= study.trim.interval) return;
    const film = feet
      .map((foot) => study.series.upTo(foot, 'lateral', today))
      .find((one) => one && today - (one.day ?? 0) <= recent && isDistorted(one, study));
    if (!film) return;
    yield {
      at: next.at,
      message: t(
        'The next visit is {0} weeks away; a distorted foot should be seen again within {1} weeks (Lesniak and others, Animals 2017;7:29).',
        Math.round((then - today) / 7),
        Math.round(study.trim.interval / 7),
      ),
      value: then - today,
      limit: study.trim.interval,
      source: t('Lesniak and others, Animals 2017;7:29'),
      fixes: soonEnough(next.at, Math.floor(study.trim.interval / 7)),
      related: [
        {
          at: { start: film.visit.start + film.film.head.start, end: film.visit.start + film.film.head.end },
          message: t('The film that shows the foot distorted.'),
        },
      ],
    };
  },
};

function soonEnough(at: Span, weeks: number): Fix[] {
  const text = `next       ${weeks} ${weeks === 1 ? 'week' : 'weeks'}`;
  return weeks < 1 ? [] : [{ title: t('Come back in {0} weeks', weeks), edits: [{ ...at, text }] }];
}

function isDistorted(film: StudiedFilm, study: RuleContext): boolean {
  return film.readings.some(({ taking }) =>
    distorted.some((name) => {
      const value = taking.values.get(name);
      const line = value && passed(value.value, linesFor(name, film.film.foot, study, film.day).lines);
      return line?.severity === 'warning' || line?.severity === 'error';
    }),
  );
}
