import { t } from '../../language/words.ts';
import { tapesOfVisit } from '../../course/taped-series.ts';
import { SURELY } from '../../course/change.ts';
import { findMeasure } from '../../measures/registry.ts';
import { limitsByMeasure } from '../limits/limits-by-measure.ts';
import type { Rule } from '../rule.ts';
import { footWords, sayLimit, sayPlusMinus, sentence, wordsFor } from '../wording/wording.ts';

/** Where there is a film of the foot at the visit, the film is held against the limits. */
export const tapeLimit: Rule = {
  code: 'tape/limit',
  severity: 'warning',
  title: 'Tape beyond a limit of the case',
  about:
    'At a visit without a film of the foot, what a hand took is held against the limits that the case sets itself. It is told where the value is beyond by more than the tape’s own error (1.96 standard deviations); published ranges are of films, and hold for no tape.',
  *onVisit({ visit, films }, { record }) {
    const limits = limitsByMeasure(record.limits);
    if (limits.size === 0) return;
    for (const { foot, values } of tapesOfVisit(visit)) {
      if (films.some(({ film }) => film.kind === 'film' && film.foot === foot)) continue;
      for (const { measure, value, sd, at } of values) {
        const known = findMeasure(measure.name);
        const own = known && limits.get(known.name);
        if (!known || !own) continue;
        const { low, high } = own;
        const broken =
          low && value + SURELY * sd < low.is.quantity.base
            ? { side: 'under', limit: low }
            : high && value - SURELY * sd > high.is.quantity.base
              ? { side: 'over', limit: high }
              : null;
        if (!broken) continue;
        const { is, start } = broken.limit;
        yield {
          at,
          message: t(
            '{0}, {1}, by hand: {2}, {3} (limit of this case).',
            sentence(wordsFor(known, foot)),
            footWords[foot],
            sayPlusMinus({ value, sd, unit: measure.unit }),
            broken.side === 'under'
              ? t('under {0}', sayLimit(is.quantity.base, measure.unit))
              : t('over {0}', sayLimit(is.quantity.base, measure.unit)),
          ),
          measure: known.name,
          value,
          limit: is.quantity.base,
          related: [
            {
              at: { start: start + is.at.start, end: start + is.at.end },
              message: t('The limit agreed for this case.'),
            },
          ],
        };
      }
    }
  },
};
