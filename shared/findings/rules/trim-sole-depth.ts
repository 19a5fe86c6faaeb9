import { linesFor, passed } from '../limits.ts';
import type { Rule } from '../rule.ts';
import { cutPlace, filmOf } from './trim-film.ts';
import { say, sayLimit, sentence } from '../wording.ts';

/** Turning the foot alone changes the depth below a point by a little; only what is cut counts as thinning. */
const noticeable = 0.5;

export const soleDepthAfter: Rule = {
  code: 'trim/sole-depth',
  severity: 'warning',
  title: 'Sole too thin after the cut',
  about:
    'The sole under the tip and the wing of the bone protects the corium. A cut that thins it below the limit leaves the bone nearer to the ground than it may be.',
  *onCut(studied, study) {
    for (const place of ['tip', 'wing'] as const) {
      const name = `sole-depth.${place}`;
      const before = studied.reading?.taking.values.get(name);
      const after = studied.prediction?.values.get(name);
      if (!before || !after || after.value > before.value - noticeable) continue;
      const line = passed(
        after.value,
        linesFor(name, studied.cut.foot, study).lines.filter((one) => one.side === 'low'),
      );
      if (!line) continue;
      yield {
        at: cutPlace(studied, place === 'tip' ? 'toe' : 'heel'),
        severity: line.severity,
        message: `${sentence(after.measure.words)} would be ${say(after.value, 'mm')} ± ${say(after.sd, 'mm')} after this ${studied.cut.kind}, below ${sayLimit(line.at, 'mm')} (${line.source}); it is ${say(before.value, 'mm')} on the film. Take less.`,
        measure: name,
        value: after.value,
        limit: line.at,
        source: line.source,
        related: filmOf(studied),
      };
    }
  },
};
