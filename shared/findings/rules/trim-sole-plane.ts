import { t } from '../../language/words.ts';
import type { Value } from '../../measures/take.ts';
import { mostAtHeel, type HeelTaken } from '../../trim/heels.ts';
import type { StudiedCut } from '../../trim/study.ts';
import type { Remark } from '../rule.ts';
import { cutRule } from '../limits/cut-rule.ts';
import { isClear } from '../limits/limits.ts';
import { heelWords } from '../wording/say-cut.ts';
import { sayBefore, sayTrims } from '../wording/say-trims.ts';
import { say, sayPlusMinus, sentence } from '../wording/wording.ts';
import { filmOf } from './trim-film.ts';

const practice = (): string => t(' To stop at the live sole plane is common practice, without a source.');

export const belowSolePlane = cutRule({
  code: 'trim/below-sole-plane',
  severity: 'error',
  title: 'Heel cut below the live sole plane',
  about:
    'Heel may come off down to the level of the live sole beside it, sole that is waxy and does not flake. Below that the cut goes into it, and the foot loses the support it has. What comes off one side counts at the heel of that side, with what both heels lose.',
  never: 'Take less: below the live sole plane the heel is alive.',
  *say(studied, { size, before }, _study, done) {
    const surplus = before.get('heel-surplus');
    const { heelDown } = studied.cut;
    const lost = studied.foot && mostAtHeel(studied.foot, size);
    if (!surplus || !lost) return;
    if (lost.fromSide > 0) {
      yield ofOneHeel(studied, lost, surplus, done);
      return;
    }
    if (!heelDown) return;
    const over = size.heelDown - surplus.value;
    const unsure = unsureOf(surplus, size.heelDown);
    yield {
      at: heelDown.at,
      severity: unsure ? 'warning' : 'error',
      message: done
        ? t(
            '{0} of heel were taken, {1} more than stood beyond the live sole plane {2}: {3}.{4}{5}',
            say(size.heelDown, 'mm'),
            say(over, 'mm'),
            sayBefore(studied),
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
      source: t('common practice, no source'),
      related: filmOf(studied),
    };
  },
});

const unsureOf = (surplus: Value, taken: number): string =>
  isClear(surplus, taken) ? '' : t(' So near that the placing alone may be it: look at the foot.');

/** Where a side makes one heel lose more than the other. */
function ofOneHeel(studied: StudiedCut, { side, taken, fromSide }: HeelTaken, surplus: Value, done: boolean): Remark {
  const { cut } = studied;
  const own = side === 'inside' ? 'insideDown' : 'outsideDown';
  const before = studied.earlier.filter((one) => one.cut[own] !== null);
  const earlier = before.length > 0 ? t(', {0} counted', sayTrims(before)) : '';
  const written = side === 'inside' ? cut.insideDown : cut.outsideDown;
  const unsure = unsureOf(surplus, taken);
  const heels = taken - fromSide;
  const parts =
    heels > 0
      ? t('{0} with both heels and {1} with its own side{2}', say(heels, 'mm'), say(fromSide, 'mm'), earlier)
      : t('all of it with its own side{0}', earlier);
  const over = say(taken - surplus.value, 'mm');
  return {
    at: (written ?? cut.heelDown)?.at ?? cut.head,
    severity: unsure ? 'warning' : 'error',
    message: done
      ? t(
          '{0} lost {1}, {2}. That is {3} more than stood beyond the live sole plane {4}: {5}.{6}{7}',
          sentence(heelWords[side]),
          say(taken, 'mm'),
          parts,
          over,
          sayBefore(studied),
          sayPlusMinus(surplus),
          unsure || t(' Protect the heels, and tell the vet.'),
          practice(),
        )
      : t(
          '{0} would lose {1}, {2}. That goes {3} below the live sole plane: only {4} of heel stand beyond it.{5}{6}',
          sentence(heelWords[side]),
          say(taken, 'mm'),
          parts,
          over,
          sayPlusMinus(surplus),
          unsure,
          practice(),
        ),
    measure: 'heel-surplus',
    value: taken,
    limit: surplus.value,
    source: t('common practice, no source'),
    related: filmOf(studied),
  };
}
