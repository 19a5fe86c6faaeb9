import type { Rule } from '../rule.ts';
import { filmOf } from './trim-film.ts';
import { say } from '../wording.ts';

export const belowSolePlane: Rule = {
  code: 'trim/below-sole-plane',
  severity: 'error',
  title: 'Heel cut below the hard sole plane',
  about:
    'Heel may come off down to the level of the hard, live sole beside it. Below that the cut goes into living sole, and the foot loses the support it has.',
  *onCut(studied) {
    const { cut, reading, size } = studied;
    const surplus = reading?.taking.values.get('heel-surplus');
    if (!surplus || !cut.heelDown || size.heelDown <= surplus.value) return;
    const over = size.heelDown - surplus.value;
    const safe = Math.max(0, Math.floor(surplus.value * 2) / 2);
    const unsure = over < 1.96 * surplus.sd ? ' That is within the error of the film: look at the foot.' : '';
    yield {
      at: cut.heelDown.at,
      severity: unsure ? 'warning' : 'error',
      message: `A heel cut of ${say(size.heelDown, 'mm')} goes ${say(over, 'mm')} below the hard sole plane: only ${say(surplus.value, 'mm')} ± ${say(surplus.sd, 'mm')} of heel stand beyond it.${unsure}`,
      measure: 'heel-surplus',
      value: size.heelDown,
      limit: surplus.value,
      source: 'common practice, no source',
      related: filmOf(studied),
      fixes: [{ title: `Lower the heel by ${safe} mm`, edits: [{ ...cut.heelDown.at, text: `${safe} mm` }] }],
    };
  },
};
