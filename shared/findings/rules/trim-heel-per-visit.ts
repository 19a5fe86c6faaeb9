import { t } from '../../language/words.ts';
import { mostTurn } from '../../trim/predict.ts';
import type { Rule } from '../rule.ts';
import { say, sayLimit } from '../wording/wording.ts';

/** Informs and is no limit: what the bone feels are the degrees, 10 mm being 4.4 in a cob and 6 in a small pony. */
export const heelPerVisit: Rule = {
  code: 'trim/heel-per-visit',
  severity: 'info',
  title: 'Much heel in one visit',
  about:
    'The tendon, the joints and the heels themselves get used to another height slowly. Many practitioners take no more than 10 mm at once and rather come back after some days (common practice, no source). By how many degrees the bone turns weighs more, and has a limit of its own.',
  *onCut({ cut, size, prediction }, { trim }) {
    if (!cut.heelDown || size.heelDown <= trim.heelPerVisit) return;
    const turn = prediction ? t(' The bone turns by {0}.', say(Math.abs(mostTurn(prediction)), 'deg')) : '';
    yield {
      at: cut.heelDown.at,
      message: t(
        '{0} of heel{1} in one visit; many take no more than {2} (common practice, no source).{3}',
        say(size.heelDown, 'mm'),
        cut.kind === 'trim' ? t(' were taken') : '',
        sayLimit(trim.heelPerVisit, 'mm'),
        turn,
      ),
      measure: 'heel-height',
      value: size.heelDown,
      limit: trim.heelPerVisit,
      source: t('common practice, no source'),
    };
  },
};
