import { t } from '../../language/words.ts';
import { accusationOf } from '../../course/bones-of.ts';
import type { Rule } from '../rule.ts';
import { sayDoubtOf } from '../wording/say-bones.ts';
import { sentence } from '../wording/wording.ts';
import { filmOf } from './trim-film.ts';

export const trimScaleInDoubt: Rule = {
  code: 'trim/scale-in-doubt',
  severity: 'warning',
  title: 'Cut on a film whose scale is in doubt',
  about:
    'A cut is in millimetres, and what it leaves is worked out on the newest film before it. Where the bones on that film have another size than on the others, its scale or its beam is off, and every millimetre with it: a marker typed a tenth too long makes the sole look a tenth thicker than it is.',
  *onCase(study) {
    for (const studied of study.cuts) {
      const { cut, visit, film, day, size } = studied;
      if (!film || size.heelDown + size.toeDown + size.toeBack === 0 || accusationOf(film, study) === null) continue;
      const isDone = cut.kind === 'trim';
      const isPast = day !== null && study.series.following(cut.foot, 'lateral', day) !== null;
      yield {
        start: visit.start,
        at: cut.head,
        severity: isDone ? 'info' : 'warning',
        message: `${sentence(sayDoubtOf([film], study))}: ${isDone ? t('what this trim left cannot be told from it') : t('no millimetre of this plan can be relied on. Mend the scale first')}.`,
        related: filmOf(studied),
        ...(isPast && { past: true }),
      };
    }
  },
};
