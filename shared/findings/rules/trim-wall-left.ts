import { cutRule } from '../limits/cut-rule.ts';
import { say, sayLimit } from '../wording/wording.ts';

export const wallLeftAtToe = cutRule({
  code: 'trim/wall-left',
  severity: 'warning',
  title: 'Toe brought back too far',
  about:
    'Bringing the toe back thins the wall from in front. Enough horn has to stay outside the lamellae to carry and to protect them.',
  *say({ cut }, outcome, { trim }, done) {
    const [margin] = outcome.broken;
    if (!cut.toeBack || !margin) return;
    const left = trim.hornAtToe + margin.value;
    yield {
      at: cut.toeBack.at,
      severity: left < 0 ? 'error' : 'warning',
      message: done
        ? `${say(outcome.size.toeBack, 'mm')} were taken; ${left < 0 ? 'the lamellae themselves were reached' : `${say(left, 'mm')} of horn are left outside the lamellae`} (${sayLimit(trim.hornAtToe, 'mm')} should stay: common practice, no source). Protect the toe.`
        : `With the toe ${say(outcome.size.toeBack, 'mm')} back, ${left < 0 ? 'the lamellae themselves would be reached' : `${say(left, 'mm')} of horn would be left outside the lamellae`}; ${sayLimit(trim.hornAtToe, 'mm')} should stay (common practice, no source). Bring it back less.`,
      measure: 'horn-lamellar.lower',
      value: left,
      limit: trim.hornAtToe,
      source: 'common practice, no source',
    };
  },
});
