import type { CutResult } from '../../trim/solve.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { say, sayLimit } from '../wording/wording.ts';

/** Horn and lamellae at the toe where the inner edge of the horn is not placed: lamellae of about 7 mm (Skelton 2025). */
const lamellae = 7;

function hornLeft({ before, prediction }: CutResult): number | null {
  if (prediction.wallLeft === null) return null;
  return prediction.wallLeft - (before.get('lamellar-zone.lower')?.value ?? lamellae);
}

export const wallLeftAtToe = cutRule({
  code: 'trim/wall-left',
  severity: 'warning',
  title: 'Toe brought back too far',
  about:
    'Bringing the toe back thins the wall from in front. Enough horn has to stay outside the lamellae to carry and to protect them.',
  excess: (outcome, _foot, { trim }) => {
    const left = hornLeft(outcome);
    return outcome.size.toeBack > 0 && left !== null ? trim.hornAtToe - left : 0;
  },
  *say({ cut }, outcome, { trim }, done) {
    const left = hornLeft(outcome);
    if (!cut.toeBack || left === null) return;
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
