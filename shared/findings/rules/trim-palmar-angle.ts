import { t } from '../../language/words.ts';
import { lowerOf } from '../../trim/predict.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { linesFor } from '../limits/limits.ts';
import { sayBefore } from '../wording/say-trims.ts';
import { say, sayLimit, sayPlusMinus, sentence, toBearing, wordsFor } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

export const palmarAngleAfter = cutRule({
  code: 'trim/palmar-angle',
  severity: 'warning',
  title: 'Palmar angle too low after the cut',
  about:
    'Each millimetre off the heel turns the foot back by about half a degree. Below the limit the bone stands flat or tips backwards, and the deep flexor tendon and the heels carry more.',
  *say(studied, outcome, study, done) {
    const { lines } = linesFor('palmar-angle', studied.cut.foot, study, studied.film?.day ?? null);
    const [line] = lines.filter(({ side }) => side === 'low').toSorted((a, b) => b.at - a.at);
    const was = outcome.before.get('palmar-angle');
    const after = lowerOf(outcome.prediction, 'palmar-angle');
    if (!line || !was || !after) return;
    yield {
      at: cutPlace(studied, 'heel'),
      // Many sound hind feet lie below 0°: behind it is no error.
      severity: after.value < 0 && !line.own && !studied.cut.foot.endsWith('H') ? 'error' : 'warning',
      message:
        t(
          '{0} {1} {2} {3}, under {4}{5}; it {6} {7} {8}.',
          sentence(toBearing(wordsFor(after.measure, studied.cut.foot), studied.foot?.frame ?? {})),
          done ? t('is now') : t('would be'),
          sayPlusMinus(after),
          done ? t('by what was taken') : t('after this plan'),
          sayLimit(line.at, 'deg'),
          line.named === '' ? '' : ` (${line.named})`,
          done ? t('was') : t('is'),
          say(was.value, 'deg'),
          sayBefore(studied),
        ) + (done ? '' : t(' Lower the heel less.')),
      measure: 'palmar-angle',
      value: after.value,
      limit: line.at,
      source: line.source,
      related: filmOf(studied),
    };
  },
});
