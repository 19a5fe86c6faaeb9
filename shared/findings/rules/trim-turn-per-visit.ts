import { t } from '../../language/words.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { say, sayLimit } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

export const turnPerVisit = cutRule({
  code: 'trim/turn-per-visit',
  severity: 'warning',
  title: 'Bone turned much in one visit',
  about:
    'A cut that turns the foot turns the pedal bone against the pull of the tendon at once. How much is too much nobody has measured; the limit is a judgement, and schools differ on whether to lower or to raise the heels of an acutely laminitic foot.',
  *say(studied, { prediction }, { trim }, done) {
    yield {
      at: cutPlace(studied, 'heel'),
      message: t(
        'This {0} {1} the bone by {2} in one visit, more than {3} (a judgement, no source).{4}',
        studied.cut.kind,
        done ? t('turned') : t('turns'),
        say(Math.abs(prediction.delta), 'deg'),
        sayLimit(trim.turnPerVisit, 'deg'),
        done ? '' : t(' Take it in steps.'),
      ),
      measure: 'palmar-angle',
      value: Math.abs(prediction.delta),
      limit: trim.turnPerVisit,
      source: t('judgement, no source'),
      related: filmOf(studied),
    };
  },
});
