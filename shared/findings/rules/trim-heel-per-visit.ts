import { cutRule } from '../cut-rule.ts';
import { say, sayLimit } from '../wording.ts';

export const heelPerVisit = cutRule({
  code: 'trim/heel-per-visit',
  severity: 'warning',
  title: 'Much heel in one visit',
  about:
    'The tendon, the joints and the heels themselves get used to another height slowly. Many practitioners take no more than 10 mm at once and rather come back after some days (common practice, no source).',
  excess: ({ size }, _foot, { trim }) => size.heelDown - trim.heelPerVisit,
  *say({ cut }, { size }, { trim }) {
    if (!cut.heelDown) return;
    yield {
      at: cut.heelDown.at,
      message: `${say(size.heelDown, 'mm')} of heel in one visit is more than ${sayLimit(trim.heelPerVisit, 'mm')} (common practice, no source). Take it in steps.`,
      measure: 'heel-height',
      value: size.heelDown,
      limit: trim.heelPerVisit,
      source: 'common practice, no source',
    };
  },
});
