import { shownDate } from '../../language/dates.ts';
import { sayChoice } from '../../language/choice-words.ts';
import { wordList } from '../../notation/word-list.ts';
import { t } from '../../language/words.ts';
import { tapesOfVisit } from '../../course/taped-series.ts';
import type { Fix } from '../../notation/problems.ts';
import type { Quantity } from '../../record/schema.ts';
import type { Rule } from '../rule.ts';
import { isBent } from '../../trim/stand.ts';
import { sayLost } from '../wording/say-trims.ts';
import { footWords, sayLimit } from '../wording/wording.ts';

export const trimWithoutFilm: Rule = {
  code: 'trim/no-film',
  severity: 'info',
  title: 'Nothing to predict a cut on',
  about:
    'A plan or a trim is predicted on the newest lateral film of the same foot. Without one, nobody can say where the cut leaves the bone.',
  *onCut({ cut, visit, film, size }) {
    if (film || (size.heelDown === 0 && size.toeDown === 0 && size.toeBack === 0)) return;
    const isTaped = tapesOfVisit(visit).some(({ foot }) => foot === cut.foot);
    yield {
      at: cut.head,
      message: t(
        'There is no lateral film of the {0} foot up to this visit, so this {1} cannot be predicted.{2}',
        footWords[cut.foot],
        sayChoice(cut.kind),
        isTaped
          ? t(' It is held against what was taken by hand; where it leaves bone and sole only a film tells.')
          : '',
      ),
      fixes: [
        {
          title: t('Add a film above it'),
          edits: [
            { start: cut.head.start, end: cut.head.start, text: `film ${cut.foot} lateral ""\n`, newLine: 'above' },
          ],
        },
      ],
    };
  },
};

export const trimNotPredicted: Rule = {
  code: 'trim/not-predicted',
  severity: 'info',
  title: 'A cut that the film cannot predict',
  about:
    'To predict a cut the film needs a scale and the two ends of the bearing surface, heel.ground and toe.ground; that of a shod foot its bearing plane as well. After a trim on two planes nothing is predicted until the next film: it stands on the one or on the other.',
  *onCut({ cut, film, reading, prediction, size, lost }) {
    if (!film || prediction || (size.heelDown === 0 && size.toeDown === 0 && size.toeBack === 0)) return;
    const names = new Set(reading?.reading.placings.map((placing) => placing.name));
    const missing = (['heel.ground', 'toe.ground'] as const).filter((name) => !names.has(name));
    const scale =
      reading?.taking.scale === null ? [reading.taking.oddSize ? t('a scale that is right') : t('a scale')] : [];
    const shoe = reading?.taking.frame?.isOnBearing === false ? [t('`bearing`, the plane between hoof and shoe')] : [];
    const needs = [...missing, ...shoe, ...scale];
    // All is there, and the foot can be followed: it is the place of the bend.
    const bend = needs.length === 0 && !lost && reading?.taking.frame && isBent(size) ? cut.heelFrom : null;
    yield {
      at: bend?.at ?? cut.head,
      message: bend
        ? t(
            'This {0} cannot be predicted: the place that the heel is cut from, {1} in front of its contact, is not behind the toe’s contact. Cut from nearer the heel, or leave `from` out.',
            sayChoice(cut.kind),
            sayLimit(bend.base, 'mm'),
          )
        : lost
          ? t(
              'This {0} cannot be predicted on the film of {1}: {2}.',
              sayChoice(cut.kind),
              shownDate(film.film.taken ?? film.visit.is.date ?? ''),
              sayLost(lost),
            )
          : needs.length > 0
            ? t(
                'This {0} cannot be predicted: the film of {1} lacks {2}.',
                sayChoice(cut.kind),
                shownDate(film.film.taken ?? film.visit.is.date ?? ''),
                wordList(needs),
              )
            : t(
                'This {0} cannot be predicted: it leaves nothing to stand on, or the film has no ground line.',
                sayChoice(cut.kind),
              ),
      related: [
        {
          at: { start: film.visit.start + film.film.head.start, end: film.visit.start + film.film.head.end },
          message: t('The film it would be predicted on.'),
        },
      ],
      ...(bend && cut.heelDown && cut.kind === 'plan' && { fixes: [onOnePlane(cut.heelDown, bend)] }),
    };
  },
};

const onOnePlane = (amount: Quantity, from: Quantity): Fix => ({
  title: t('Cut the heel on one plane with the toe'),
  edits: [{ start: amount.at.end, end: from.at.end, text: '' }],
});
