import { t } from '../../language/words.ts';
import { bonesOf } from '../../course/bones-of.ts';
import { feet } from '../../notation/choices.ts';
import type { Rule } from '../rule.ts';

export const tipShorter: Rule = {
  code: 'course/tip-shorter',
  severity: 'info',
  title: 'Tip of the bone shorter',
  about:
    'The tip of the pedal bone can lose bone, in long laminitis above all. Where the bone is shorter from tip to wing than on the other films of the foot while its other lengths are the same, the tip has lost bone, or was placed elsewhere. It is told of the newest such film, where it is more than 3 % and 3 standard deviations of the placings (judgements of ours), in animals of 36 months or more.',
  *onCase(study) {
    for (const foot of feet) {
      const short = bonesOf(foot, study).findLast(({ tipShort }) => tipShort !== null);
      if (!short || short.tipShort === null) continue;
      const { visit, film, readings } = short.film;
      const reading = readings.find(({ taking }) => taking.frame)?.reading;
      yield {
        start: visit.start,
        at: reading?.placings.find(({ name }) => name === 'p3.tip')?.at ?? film.head,
        message: t(
          'The pedal bone is {0} % shorter here from tip to wing than on the other films of this foot, while the other lengths of bone are the same. The tip may have lost bone, or is placed elsewhere: ask the vet.',
          (100 * short.tipShort).toFixed(0),
        ),
        measure: 'p3-length',
        value: -100 * short.tipShort,
        source: t('the other films of this foot'),
      };
    }
  },
};
