import { t } from '../../language/words.ts';
import { mostTurn } from '../../trim/predict.ts';
import { inOneVisitWith, sizeOf } from '../../trim/trim-series.ts';
import type { Rule } from '../rule.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { say, sayLimit } from '../wording/wording.ts';

/** Informs and is no limit: what the bone feels are the degrees, 10 mm being 4.4 in a cob and 6 in a small pony. */
export const heelPerVisit: Rule = {
  code: 'trim/heel-per-visit',
  severity: 'info',
  title: 'Much heel in one visit',
  about:
    'The tendon, the joints and the heels themselves get used to another height slowly. Many practitioners take no more than 10 mm at once and rather come back after some days (common practice, no source). By how many degrees the bone turns weighs more, and has a limit of its own. What trims take on one day counts together.',
  *onCut(studied, { trim }) {
    const { cut, size, prediction } = studied;
    const others = inOneVisitWith(studied);
    const earlier = others.reduce((sum, one) => sum + sizeOf(one.cut).heelDown, 0);
    const taken = size.heelDown + earlier;
    if (!cut.heelDown || taken <= trim.heelPerVisit) return;
    // The degrees of the day are told by a rule of their own.
    const turn =
      prediction && earlier === 0 ? t(' The bone turns by {0}.', say(Math.abs(mostTurn(prediction)), 'deg')) : '';
    const before = earlier > 0 ? t(', with {0},', sayTrims(others)) : '';
    yield {
      at: cut.heelDown.at,
      message: t(
        '{0} of heel{4}{1} in one visit; many take no more than {2} (common practice, no source).{3}',
        say(taken, 'mm'),
        cut.kind === 'trim' ? t(' were taken') : '',
        sayLimit(trim.heelPerVisit, 'mm'),
        turn,
        before,
      ),
      measure: 'heel-height',
      value: taken,
      limit: trim.heelPerVisit,
      source: t('common practice, no source'),
    };
  },
};
