import { t } from '../../language/words.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { say, sayLimit } from '../wording/wording.ts';

export const wallLeftAtToe = cutRule({
  code: 'trim/wall-left',
  severity: 'warning',
  title: 'Toe brought back too far',
  about:
    'Bringing the toe back thins the wall from in front. Enough horn has to stay outside the lamellae to carry and to protect them.',
  *say({ cut, earlier }, outcome, { trim }, done) {
    const back = earlier.filter((one) => one.cut.toeBack !== null);
    const [margin] = outcome.broken;
    if (!cut.toeBack || !margin) return;
    const left = trim.hornAtToe + margin.value;
    yield {
      at: cut.toeBack.at,
      severity: left < 0 ? 'error' : 'warning',
      message: done
        ? t(
            '{0} were taken{3}; {1} ({2} should stay: common practice, no source). Protect the toe.',
            say(
              back.reduce((sum, one) => sum + (one.cut.toeBack?.base ?? 0), outcome.size.toeBack),
              'mm',
            ),
            left < 0
              ? t('the lamellae themselves were reached')
              : t('{0} of horn are left outside the lamellae', say(left, 'mm')),
            sayLimit(trim.hornAtToe, 'mm'),
            back.length > 0 ? t(', with {0}', sayTrims(back)) : '',
          )
        : t(
            'With the toe {0} back, {1}; {2} should stay (common practice, no source). Bring it back less.',
            say(outcome.size.toeBack, 'mm'),
            left < 0
              ? t('the lamellae themselves would be reached')
              : t('{0} of horn would be left outside the lamellae', say(left, 'mm')),
            sayLimit(trim.hornAtToe, 'mm'),
          ),
      measure: 'horn-lamellar.lower',
      value: left,
      limit: trim.hornAtToe,
      source: t('common practice, no source'),
    };
  },
});
