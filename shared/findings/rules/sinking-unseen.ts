import { t } from '../../language/words.ts';
import { unseenOn } from '../../course/unseen.ts';
import { feet } from '../../notation/choices.ts';
import type { Rule } from '../rule.ts';
import { sayUnseen } from '../wording/say-unseen.ts';
import { footWords, sentence } from '../wording/wording.ts';

export const sinkingUnseen: Rule = {
  code: 'course/cannot-tell',
  severity: 'info',
  title: 'Newest film cannot tell of sinking',
  about:
    'Whether the bone has sunk is seen where two films have a scale, the extensor process, and the top of the firm wall or the hairline at the toe, the same on both. The newest film of this foot cannot be held against an earlier one: what has sunk since then would not be told.',
  *onCase(study) {
    for (const foot of feet) {
      const unseen = unseenOn(study.series.of(foot, 'lateral'), study);
      // Of a film on which nothing is placed yet that is said already.
      if (!unseen || unseen.film.readings.every(({ reading }) => reading.placings.length === 0)) continue;
      const { film, visit } = unseen.film;
      yield {
        start: visit.start,
        at: film.head,
        message: t(
          '{0}: this film cannot tell whether the bone has sunk. It {1}.',
          sentence(footWords[foot]),
          sayUnseen(unseen),
        ),
      };
    }
  },
};
