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
      message: `This ${studied.cut.kind} ${done ? 'turned' : 'turns'} the bone by ${say(Math.abs(prediction.delta), 'deg')} in one visit, more than ${sayLimit(trim.turnPerVisit, 'deg')} (a judgement, no source).${done ? '' : ' Take it in steps.'}`,
      measure: 'palmar-angle',
      value: Math.abs(prediction.delta),
      limit: trim.turnPerVisit,
      source: 'judgement, no source',
      related: filmOf(studied),
    };
  },
});
