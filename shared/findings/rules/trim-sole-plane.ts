import { t } from '../../language/words.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { isClear } from '../limits/limits.ts';
import { say, sayPlusMinus } from '../wording/wording.ts';
import { filmOf } from './trim-film.ts';

const practice = (): string => t(' To stop at the live sole plane is common practice, without a source.');

export const belowSolePlane = cutRule({
  code: 'trim/below-sole-plane',
  severity: 'error',
  title: 'Heel cut below the live sole plane',
  about:
    'Heel may come off down to the level of the live sole beside it, sole that is waxy and does not flake. Below that the cut goes into it, and the foot loses the support it has.',
  never: 'Take less: below the live sole plane the heel is alive.',
  *say(studied, { size, before }, _study, done) {
    const surplus = before.get('heel-surplus');
    const { heelDown } = studied.cut;
    if (!surplus || !heelDown) return;
    const over = size.heelDown - surplus.value;
    const unsure = isClear(surplus, size.heelDown)
      ? ''
      : t(' So near that the placing alone may be it: look at the foot.');
    yield {
      at: heelDown.at,
      severity: unsure ? 'warning' : 'error',
      message: done
        ? t(
            '{0} of heel were taken, {1} more than stood beyond the live sole plane on the film: {2}.{3}{4}',
            say(size.heelDown, 'mm'),
            say(over, 'mm'),
            sayPlusMinus(surplus),
            unsure || t(' Protect the heels, and tell the vet.'),
            practice(),
          )
        : t(
            'A heel cut of {0} goes {1} below the live sole plane: only {2} of heel stand beyond it.{3}{4}',
            say(size.heelDown, 'mm'),
            say(over, 'mm'),
            sayPlusMinus(surplus),
            unsure,
            practice(),
          ),
      measure: 'heel-surplus',
      value: size.heelDown,
      limit: surplus.value,
      source: t('common practice(), no source'),
      related: filmOf(studied),
    };
  },
});
