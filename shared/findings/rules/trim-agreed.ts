import { t } from '../../language/words.ts';
import { findMeasure } from '../../measures/registry.ts';
import { lowerOf } from '../../trim/predict.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { limitsByMeasure } from '../limits/limits-by-measure.ts';
import { sayBefore } from '../wording/say-trims.ts';
import { say, sayLimit, sayPlusMinus, sentence, wordsFor } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

export const agreedAfterCut = cutRule({
  code: 'trim/agreed',
  severity: 'warning',
  title: 'Beyond a limit of the case after the cut',
  about:
    'A limit under `limits` holds for what a cut leaves too: heel height, toe length, what is agreed between those who care for the foot. Where a cut takes a value beyond it, or further beyond, it is told. The lowest palmar angle and the least sole have findings of their own.',
  *say(studied, outcome, { record }, done) {
    for (const { agreed } of outcome.broken) {
      const measure = agreed && findMeasure(agreed.measure);
      if (!measure) continue;
      const was = outcome.before.get(measure.name);
      const after = lowerOf(outcome.prediction, measure.name);
      if (!was || !after) continue;
      const limit = limitsByMeasure(record.limits).get(measure.name)?.[agreed.side];
      yield {
        at: cutPlace(studied, measure.name.startsWith('toe') ? 'toe' : 'heel'),
        message: t(
          '{0} {1} {2} {3}, beyond the {4} agreed for this case; it {5} {6} {7}.',
          sentence(wordsFor(measure, studied.cut.foot)),
          done ? t('is now') : t('would be'),
          sayPlusMinus(after),
          done ? t('by what was taken') : t('after this plan'),
          sayLimit(agreed.at, measure.unit),
          done ? t('was') : t('is'),
          say(was.value, was.unit),
          sayBefore(studied),
        ),
        measure: measure.name,
        value: after.value,
        limit: agreed.at,
        related: [
          ...filmOf(studied),
          ...(limit
            ? [
                {
                  at: { start: limit.start + limit.is.at.start, end: limit.start + limit.is.at.end },
                  message: t('The limit agreed for this case.'),
                },
              ]
            : []),
        ],
      };
    }
  },
});
