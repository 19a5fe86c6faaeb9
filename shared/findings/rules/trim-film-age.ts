import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { filmOf } from './trim-film.ts';

export const filmTooOld: Rule = {
  code: 'trim/film-age',
  severity: 'warning',
  title: 'Film too old for the plan',
  about:
    'A foot grows and is trimmed: after a cycle a film no longer shows the foot that is planned for. How old is too old is a judgement; the trimming cycle is 4 to 6 weeks (Lesniak 2017).',
  *onCut(studied, { trim }) {
    const { cut, film, day: today } = studied;
    const taken = film && film.day;
    if (cut.kind !== 'plan' || taken === null || today === null || today - taken <= trim.filmAge) return;
    yield {
      at: cut.head,
      message: t(
        'The film that this plan rests on is {0} days old; after {1} it shows another foot (a judgement, no source). Ask the vet for a new one.',
        today - taken,
        trim.filmAge,
      ),
      value: today - taken,
      limit: trim.filmAge,
      source: t('judgement, no source'),
      related: filmOf(studied),
    };
  },
};
