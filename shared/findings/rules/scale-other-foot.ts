import { t } from '../../language/words.ts';
import { leastSpread, otherFoot } from '../../trim/bone-scale.ts';
import type { Rule } from '../rule.ts';
import { footWords } from '../wording/wording.ts';

export const scaleOtherFoot: Rule = {
  code: 'scale/other-foot',
  severity: 'info',
  title: 'Scale from the bones of the other foot',
  about:
    'With `scale bone` a film takes its scale from the size of the bones on other films of the foot. Where none of those has a scale of its own that can be relied on, the other foot of the pair stands in. The two are not quite alike, so that lengths are known to 6 % at best (one standard deviation; a judgement of ours).',
  *onVisit({ films }) {
    for (const { film, bone, readings } of films) {
      if (readings.some(({ taking }) => taking.oddSize)) continue;
      if (!film.scale || !bone || !('input' in bone) || bone.from !== 'pair') continue;
      yield {
        at: film.scale.at,
        message: t(
          'The scale is taken from the bones of the {0}, as no film of this foot has a scale that can be relied on. Lengths are known to {1} % at best (one standard deviation; a judgement of ours).',
          footWords[otherFoot[film.foot]],
          (100 * Math.max(leastSpread.pair, bone.input.relativeSd)).toFixed(0),
        ),
      };
    }
  },
};
