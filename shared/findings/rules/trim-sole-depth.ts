import type { CutResult } from '../../trim/solve.ts';
import { cutRule, type CutContext } from '../limits/cut-rule.ts';
import { linesFor, passed, type LimitLine } from '../limits/limits.ts';
import { say, sayLimit, sayPlusMinus, sentence } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

/** Turning the foot alone changes the depth below a point by a little; only what is cut counts as thinning. */
const noticeable = 0.5;

/** mm under the tip. A cut to less is an error: under it the foot wants protection (Taylor and others 2014, as quoted by others). */
const leastLeft = 7;

const places = ['tip', 'wing'] as const;

function thinned(
  place: 'tip' | 'wing',
  { before, prediction }: CutResult,
  foot: string,
  study: CutContext,
  day: number | null,
): LimitLine | undefined {
  const name = `sole-depth.${place}` as const;
  const was = before.get(name);
  const after = prediction.value(name);
  if (!was || !after || after.value > was.value - noticeable) return undefined;
  return passed(
    after.value,
    linesFor(name, foot, study, day).lines.filter((line) => line.side === 'low'),
  );
}

export const soleDepthAfter = cutRule({
  code: 'trim/sole-depth',
  severity: 'warning',
  title: 'Sole too thin after the cut',
  about:
    'The sole under the tip and the wing of the bone protects the corium. A cut that thins it below the limit leaves the bone nearer to the ground than it may be.',
  never: 'Take less, or agree a limit for this case under `limits`, with `because`.',
  excess: (outcome, foot, study, day) =>
    Math.max(
      0,
      ...places.map((place) => {
        const line = thinned(place, outcome, foot, study, day);
        return line ? line.at - (outcome.prediction.value(`sole-depth.${place}`)?.value ?? line.at) : 0;
      }),
    ),
  *say(studied, outcome, study, done) {
    for (const place of places) {
      const line = thinned(place, outcome, studied.cut.foot, study, studied.film?.day ?? null);
      const was = outcome.before.get(`sole-depth.${place}`);
      const after = outcome.prediction.value(`sole-depth.${place}`);
      if (!line || !was || !after) continue;
      yield {
        at: cutPlace(studied, place === 'tip' ? 'toe' : 'heel'),
        severity: after.value < leastLeft && place === 'tip' ? 'error' : 'warning',
        message: `${sentence(after.measure.words)} ${done ? 'is now' : 'would be'} ${sayPlusMinus(after)} ${done ? 'by what was taken' : 'after this plan'}, under ${sayLimit(line.at, 'mm')}${line.named === '' ? '' : ` (${line.named})`}; it ${done ? 'was' : 'is'} ${say(was.value, 'mm')} on the film. ${done ? 'Protect the foot.' : 'Take less.'}`,
        measure: after.measure.name,
        value: after.value,
        limit: line.at,
        source: line.source,
        related: filmOf(studied),
      };
    }
  },
});
