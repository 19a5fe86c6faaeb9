import { linesFor, passes } from '../limits.ts';
import type { Rule } from '../rule.ts';
import { cutPlace, filmOf } from './trim-film.ts';
import { say, sayLimit, sentence, wordsFor } from '../wording.ts';

export const palmarAngleAfter: Rule = {
  code: 'trim/palmar-angle',
  severity: 'warning',
  title: 'Palmar angle too low after the cut',
  about:
    'Each millimetre off the heel turns the foot back by about half a degree. Below the limit the bone stands flat or tips backwards, and the deep flexor tendon and the heels carry more.',
  *onCut(studied, study) {
    const before = studied.reading?.taking.values.get('palmar-angle');
    const after = studied.prediction?.values.get('palmar-angle');
    if (!before || !after || after.value >= before.value) return;
    const { lines } = linesFor('palmar-angle', studied.cut.foot, study);
    const line = lines.find((one) => one.side === 'low' && passes(after.value, one));
    if (!line) return;
    const name = wordsFor(after.measure, studied.cut.foot);
    yield {
      at: cutPlace(studied, 'heel'),
      severity: after.value < 0 && !line.own ? 'error' : 'warning',
      message:
        `${sentence(name)} would be ${say(after.value, 'deg')} ± ${say(after.sd, 'deg')} after this ${studied.cut.kind}, below ${sayLimit(line.at, 'deg')} (${line.source}); it is ${say(before.value, 'deg')} on the film.` +
        ` Lower the heel less.`,
      measure: 'palmar-angle',
      value: after.value,
      limit: line.at,
      source: line.source,
      related: filmOf(studied),
    };
  },
};
