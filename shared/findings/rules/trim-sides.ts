import { shownDate } from '../../language/dates.ts';
import { wordList } from '../../notation/word-list.ts';
import { t } from '../../language/words.ts';
import { sidesOf } from '../../trim/side-cut.ts';
import type { Rule } from '../rule.ts';
import { footWords } from '../wording/wording.ts';

export const sidesNotPredicted: Rule = {
  code: 'trim/sides-not-predicted',
  severity: 'info',
  title: 'Side to side without a front film',
  about:
    'What comes off the inner or the outer side is predicted on the newest front film of the same foot, with its scale and both contacts of the wall, wall.medial and wall.lateral. Live sole is not visible there: how far a side may come down is judged on the foot.',
  *onCut(studied, { series }) {
    const { cut } = studied;
    const sides = sidesOf(studied, series, null);
    if (!sides || sides.prediction) return;
    const { film, reading } = sides;
    const names = new Set(reading?.reading.placings.map(({ name }) => name));
    const needs = [
      ...(['wall.medial', 'wall.lateral'] as const).filter((name) => !names.has(name)),
      ...(reading?.taking.scale === null ? [t('a scale')] : []),
      ...(reading?.taking.frame?.isOnBearing === false ? [t('its bearing plane')] : []),
    ];
    const why = !film
      ? t('there is no front film of the {0} foot up to this visit', footWords[cut.foot])
      : needs.length > 0
        ? t('the front film of {0} lacks {1}', shownDate(film.film.taken ?? film.visit.is.date ?? ''), wordList(needs))
        : t(
            'the front film of {0} has no ground line, or its sides are exchanged',
            shownDate(film.film.taken ?? film.visit.is.date ?? ''),
          );
    yield {
      at: (cut.insideDown ?? cut.outsideDown)?.at ?? cut.head,
      message: t('What this does to the bone from side to side cannot be predicted: {0}.', why),
    };
  },
};
