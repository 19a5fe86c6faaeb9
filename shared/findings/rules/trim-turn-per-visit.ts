import { t } from '../../language/words.ts';
import { mostTurn } from '../../trim/predict.ts';
import { inOneVisitWith } from '../../trim/trim-series.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { say, sayLimit } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

export const turnPerVisit = cutRule({
  code: 'trim/turn-per-visit',
  severity: 'warning',
  title: 'Bone turned much in one visit',
  about:
    'A cut that turns the foot turns the pedal bone against the pull of the tendon at once. What trims take off a foot on one day counts together; a plan counts alone, as one below a trim of its day is for the visit after. How much is too much nobody has measured; the limit is a judgement, and schools differ on whether to lower or to raise the heels of an acutely laminitic foot.',
  *say(studied, { prediction, broken }, { trim }, done) {
    const earlier = inOneVisitWith(studied);
    const [margin] = broken;
    if (!margin) return;
    const own = Math.abs(mostTurn(prediction));
    const turn = trim.turnPerVisit - margin.value;
    const where = !prediction.onToe
      ? ''
      : own === Math.abs(prediction.delta)
        ? t(' where the foot stands on its heels')
        : t(' where the foot stands on its toe');
    yield {
      at: cutPlace(studied, 'heel'),
      message: t(
        '{0} the bone by {1} in one visit{2}, more than {3} (a judgement, no source).{4}',
        earlier.length > 0
          ? t('With {0} this trim turned', sayTrims(earlier))
          : done
            ? t('This trim turned')
            : t('This plan turns'),
        say(turn, 'deg'),
        where,
        sayLimit(trim.turnPerVisit, 'deg'),
        done ? '' : t(' Take it in steps.'),
      ),
      measure: 'palmar-angle',
      value: turn,
      limit: trim.turnPerVisit,
      source: t('judgement, no source'),
      related: filmOf(studied),
    };
  },
});
