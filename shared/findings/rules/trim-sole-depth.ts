import { t } from '../../language/words.ts';
import { lowerOf } from '../../trim/predict.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { linesFor, passed } from '../limits/limits.ts';
import { sayBefore } from '../wording/say-trims.ts';
import { say, sayLimit, sayPlusMinus, sentence } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

/** mm under the tip. A cut to less is an error: under it the foot wants protection (Taylor and others 2014, as quoted by others). */
const leastLeft = 7;

export const soleDepthAfter = cutRule({
  code: 'trim/sole-depth',
  severity: 'warning',
  title: 'Sole too thin after the cut',
  about:
    'The sole under the tip and the wing of the bone protects the corium. A cut that thins it below the limit leaves the bone nearer to the ground than it may be.',
  never: 'Take less, or agree a limit for this case under `limits`, with `because`.',
  *say(studied, outcome, study, done) {
    for (const { place } of outcome.broken) {
      if (place !== 'tip' && place !== 'wing') continue;
      const name = `sole-depth.${place}` as const;
      const was = outcome.before.get(name);
      const after = lowerOf(outcome.prediction, name);
      const { lines } = linesFor(name, studied.cut.foot, study, studied.film?.day ?? null);
      const line =
        after &&
        passed(
          after.value,
          lines.filter(({ side }) => side === 'low'),
        );
      if (!line || !was || !after) continue;
      yield {
        at: cutPlace(studied, place === 'tip' ? 'toe' : 'heel'),
        severity: after.value < leastLeft && place === 'tip' ? 'error' : 'warning',
        message: t(
          '{0} {1} {2} {3}, under {4}{5}; it {6} {7} {8}. {9}',
          sentence(after.measure.words),
          done ? t('is now') : t('would be'),
          sayPlusMinus(after),
          done ? t('by what was taken') : t('after this plan'),
          sayLimit(line.at, 'mm'),
          line.named === '' ? '' : ` (${line.named})`,
          done ? t('was') : t('is'),
          say(was.value, 'mm'),
          sayBefore(studied),
          done ? t('Protect the foot.') : t('Take less.'),
        ),
        measure: after.measure.name,
        value: after.value,
        limit: line.at,
        source: line.source,
        related: filmOf(studied),
      };
    }
  },
});
