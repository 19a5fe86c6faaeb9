import type { CutResult } from '../../trim/solve.ts';
import { cutRule, type CutContext } from '../limits/cut-rule.ts';
import { linesFor, passes, type LimitLine } from '../limits/limits.ts';
import { say, sayLimit, sayPlusMinus, sentence, wordsFor } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

/** The innermost low line that the angle passes after a cut that lowered it. */
function passedLine(
  { before, prediction }: CutResult,
  foot: string,
  study: CutContext,
  day: number | null,
): LimitLine | undefined {
  const was = before.get('palmar-angle');
  const after = prediction.value('palmar-angle');
  if (!was || !after || after.value >= was.value) return undefined;
  const { lines } = linesFor('palmar-angle', foot, study, day);
  return lines.find((line) => line.side === 'low' && passes(after.value, line));
}

export const palmarAngleAfter = cutRule({
  code: 'trim/palmar-angle',
  severity: 'warning',
  title: 'Palmar angle too low after the cut',
  about:
    'Each millimetre off the heel turns the foot back by about half a degree. Below the limit the bone stands flat or tips backwards, and the deep flexor tendon and the heels carry more.',
  excess: (outcome, foot, study, day) => {
    const line = passedLine(outcome, foot, study, day);
    return line ? line.at - (outcome.prediction.value('palmar-angle')?.value ?? line.at) : 0;
  },
  *say(studied, outcome, study, done) {
    const line = passedLine(outcome, studied.cut.foot, study, studied.film?.day ?? null);
    const was = outcome.before.get('palmar-angle');
    const after = outcome.prediction.value('palmar-angle');
    if (!line || !was || !after) return;
    yield {
      at: cutPlace(studied, 'heel'),
      // Many sound hind feet lie below 0°: behind it is no error.
      severity: after.value < 0 && !line.own && !studied.cut.foot.endsWith('H') ? 'error' : 'warning',
      message:
        `${sentence(wordsFor(after.measure, studied.cut.foot))} ${done ? 'is now' : 'would be'} ${sayPlusMinus(after)} ${done ? 'by what was taken' : 'after this plan'}, under ${sayLimit(line.at, 'deg')}${line.named === '' ? '' : ` (${line.named})`}; it ${done ? 'was' : 'is'} ${say(was.value, 'deg')} on the film.` +
        (done ? '' : ' Lower the heel less.'),
      measure: 'palmar-angle',
      value: after.value,
      limit: line.at,
      source: line.source,
      related: filmOf(studied),
    };
  },
});
