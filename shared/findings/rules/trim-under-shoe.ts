import { t } from '../../language/words.ts';
import { SURELY } from '../../course/change.ts';
import { onPlane } from '../../geometry/planes.ts';
import type { StudiedCut } from '../../trim/study.ts';
import { sizeOf } from '../../trim/trim-series.ts';
import type { Rule } from '../rule.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { say, sayPlusMinus } from '../wording/wording.ts';
import { filmOf } from './trim-film.ts';

/**
 * A heel cut on a shod foot whose bearing plane is not placed. How much heel there is cannot be told then, but not more than lies
 * between the live sole and the contact: the contact is the hoof's, or the shoe's below it.
 */
export const trimUnderShoe: Rule = {
  code: 'trim/under-shoe',
  severity: 'error',
  title: 'Heel cut deeper than the foot is on its shoe',
  about:
    'On the film of a shod foot without its bearing plane nobody can tell how much heel stands beyond the live sole plane. But it is no more than lies between the live sole and what the heel stands on, and where the thickness of what the foot wears is written, no more than that less the shoe. A cut that is surely deeper goes into live sole. To stop at the live sole plane is common practice, without a source.',
  never: 'Take less: below the live sole plane the heel is alive. Or place `bearing`, so that it can be measured.',
  *onCut(studied) {
    const { cut } = studied;
    const most = mostHeel(studied);
    if (!cut.heelDown || !most) return;
    const others = studied.earlier;
    const taken = [cut, ...others.map((one) => one.cut)].reduce((sum, one) => sum + sizeOf(one).heelDown, 0);
    const surely = taken > most.placed.value + SURELY * most.placed.sd;
    const value = surely ? most.placed : most.lessShoe;
    if (!value || taken <= value.value + SURELY * value.sd) return;
    yield {
      at: cut.heelDown.at,
      // A thickness as written is no measurement.
      severity: surely ? 'error' : 'warning',
      message: t(
        '{0} of heel{1}{2} on a shod foot: between its live sole and {3} lie no more than {4}. Place `bearing`, the plane between hoof and shoe, and look at the foot. To stop at the live sole plane is common practice, without a source.',
        say(taken, 'mm'),
        others.length > 0 ? t(', with {0},', sayTrims(others)) : '',
        cut.kind === 'trim' ? t(' were taken') : '',
        surely ? t('what the heel stands on') : t('a shoe as thick as is written'),
        sayPlusMinus({ ...value, unit: 'mm' }),
      ),
      measure: 'heel-surplus',
      value: taken,
      limit: value.value,
      source: t('common practice, no source'),
      related: filmOf(studied),
    };
  },
};

interface Length {
  readonly value: number;
  readonly sd: number;
}

/** mm of heel that there can be at most: as placed, and less the shoe that is written; null where the bearing plane is known, or the places are not. */
function mostHeel({ film, reading }: StudiedCut): { readonly placed: Length; readonly lessShoe: Length | null } | null {
  const frame = reading?.taking.frame;
  if (!film?.worn || !frame?.scale || frame.isOnBearing) return null;
  return frame.graph.scratch(() => {
    // To the ground where that is placed; else square to the line between the contacts.
    const ground = onPlane(frame, 'ground');
    const standing = ground ?? frame;
    const [sole, heel] = [standing.at('sole.heel'), standing.at('heel.ground')];
    if (!sole || !heel) return null;
    const lengthOf = (real: typeof sole.y): Length => ({ value: real.value, sd: frame.graph.deviation(real) });
    const { thickness } = film.worn ?? {};
    return {
      placed: lengthOf(sole.y.minus(heel.y)),
      lessShoe: ground && thickness ? lengthOf(sole.y.minus(thickness)) : null,
    };
  });
}
