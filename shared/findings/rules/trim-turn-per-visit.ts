import { t } from '../../language/words.ts';
import { mostTurn } from '../../trim/predict.ts';
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
    const turn = Math.abs(mostTurn(prediction));
    const where = !prediction.onToe
      ? ''
      : turn === Math.abs(prediction.delta)
        ? t(' where the foot stands on its heels')
        : t(' where the foot stands on its toe');
    yield {
      at: cutPlace(studied, 'heel'),
      message: t(
        'This {0} {1} the bone by {2} in one visit{5}, more than {3} (a judgement, no source).{4}',
        studied.cut.kind,
        done ? t('turned') : t('turns'),
        say(turn, 'deg'),
        sayLimit(trim.turnPerVisit, 'deg'),
        done ? '' : t(' Take it in steps.'),
        where,
      ),
      measure: 'palmar-angle',
      value: turn,
      limit: trim.turnPerVisit,
      source: t('judgement, no source'),
      related: filmOf(studied),
    };
  },
});
