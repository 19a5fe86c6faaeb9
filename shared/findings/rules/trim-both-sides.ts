import { sayChoice } from '../../language/choice-words.ts';
import { t } from '../../language/words.ts';
import { offBothSides, seenAfter } from '../../trim/stand.ts';
import type { Rule } from '../rule.ts';
import { say } from '../wording/wording.ts';
import { cutPlace } from './trim-film.ts';

export const bothSides: Rule = {
  code: 'trim/both-sides',
  severity: 'info',
  title: 'Both sides lowered: the whole foot',
  about:
    'A side is lowered from heel to toe. Where both come down, the whole foot does, by what both of them lose: heel and toe alike, and every limit sees it. Where only the heels were meant, `heel down` says so.',
  *onCut(studied) {
    const { foot, size } = studied;
    const both = foot ? seenAfter(foot, size).whole : offBothSides(size);
    if (both === 0) return;
    yield {
      at: cutPlace(studied, 'toe'),
      message: t(
        'With this {1} both sides are down, so the whole foot is: by {0} more at heel and toe alike. Where only the heels are meant, write heel down.',
        say(both, 'mm'),
        sayChoice(studied.cut.kind),
      ),
    };
  },
};
