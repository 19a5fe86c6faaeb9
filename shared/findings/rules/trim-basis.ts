import { wordList } from '../../notation/word-list.ts';
import { t } from '../../language/words.ts';
import { tapesOfVisit } from '../../course/taped-series.ts';
import type { Rule } from '../rule.ts';
import { footWords } from '../wording/wording.ts';

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
        cut.kind,
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
    'To predict a cut the film needs a scale and the two ends of the bearing surface, heel.ground and toe.ground; that of a shod foot its bearing plane as well.',
  *onCut({ cut, film, reading, prediction, size, tooMany }) {
    if (!film || prediction || (size.heelDown === 0 && size.toeDown === 0 && size.toeBack === 0)) return;
    const names = new Set(reading?.reading.placings.map((placing) => placing.name));
    const missing = (['heel.ground', 'toe.ground'] as const).filter((name) => !names.has(name));
    const scale =
      reading?.taking.scale === null ? [reading.taking.oddSize ? t('a scale that is right') : t('a scale')] : [];
    const shoe = reading?.taking.frame?.isOnBearing === false ? [t('`bearing`, the plane between hoof and shoe')] : [];
    const needs = [...missing, ...shoe, ...scale];
    yield {
      at: cut.head,
      message: tooMany
        ? t(
            'This {0} cannot be predicted: more trims than the foot can be followed through were made since the film of {1}.',
            cut.kind,
            film.film.taken ?? film.visit.is.date,
          )
        : needs.length > 0
          ? t(
              'This {0} cannot be predicted: the film of {1} lacks {2}.',
              cut.kind,
              film.film.taken ?? film.visit.is.date,
              wordList(needs),
            )
          : t('This {0} cannot be predicted: it leaves nothing to stand on, or the film has no ground line.', cut.kind),
      related: [
        {
          at: { start: film.visit.start + film.film.head.start, end: film.visit.start + film.film.head.end },
          message: t('The film it would be predicted on.'),
        },
      ],
    };
  },
};
