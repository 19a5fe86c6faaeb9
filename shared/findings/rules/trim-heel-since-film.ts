import { t } from '../../language/words.ts';
import { SURELY } from '../../course/change.ts';
import { bareFoot, onPlane } from '../../geometry/planes.ts';
import { mostAtHeel } from '../../trim/heels.ts';
import { cutOfNothing, type CutSize } from '../../trim/stand.ts';
import type { StudiedCut } from '../../trim/study.ts';
import { sizeOf } from '../../trim/trim-series.ts';
import type { Rule } from '../rule.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { say, sayPlusMinus } from '../wording/wording.ts';
import { filmOf } from './trim-film.ts';

/**
 * A heel cut that cannot be predicted: the foot is shod and its bearing plane not placed, or it stands on two planes. What a heel can
 * have lost since the film is known all the same: no more than stood beyond its live sole there.
 */
export const heelSinceFilm: Rule = {
  code: 'trim/heel-since-film',
  severity: 'error',
  title: 'More heel than stands beyond the live sole plane',
  about:
    'On the film of a shod foot without its bearing plane nobody can tell how much heel stands beyond the live sole plane. But it is no more than lies between the live sole and what the heel stands on, and where the thickness of what the foot wears is written, no more than that less the shoe. After a trim on two planes nothing is predicted, but what the heels have lost since the film adds up. A cut that is surely deeper goes into live sole. To stop at the live sole plane is common practice, without a source.',
  never: 'Take less: below the live sole plane the heel is alive. Or take a new film, of a shod foot place `bearing`.',
  *onCut(studied) {
    const { cut, earlier } = studied;
    if (studied.prediction && studied.bare) return;
    const here = mostAtHeel({ earlier: [] }, sizeOf(cut));
    const lost = mostAtHeel({ earlier: [] }, together([...earlier.map((one) => one.cut), cut].map(sizeOf)));
    const most = here && mostHeel(studied);
    if (!most || !lost) return;
    const { taken } = lost;
    const surely = taken > most.placed.value + SURELY * most.placed.sd;
    const value = surely ? most.placed : most.lessShoe;
    if (!value || taken <= value.value + SURELY * value.sd) return;
    const at = cut.heelDown ?? (lost.side === 'inside' ? cut.insideDown : cut.outsideDown) ?? cut.insideDown;
    const heel = say(taken, 'mm');
    const by = earlier.length > 0 ? t(' with {0}', sayTrims(earlier)) : '';
    yield {
      at: at?.at ?? cut.head,
      // A thickness as written is no measurement.
      severity: surely ? 'error' : 'warning',
      message: most.isShod
        ? t(
            'The heel {0} {1}{2} on a shod foot: between its live sole and {3} lie no more than {4}. Place `bearing`, the plane between hoof and shoe, and look at the foot. To stop at the live sole plane is common practice, without a source.',
            cut.kind === 'trim' ? t('lost') : t('would lose'),
            heel,
            by,
            surely ? t('what it stands on') : t('a shoe as thick as is written'),
            sayPlusMinus({ ...value, unit: 'mm' }),
          )
        : t(
            'The heel {0} {1}{2} since the film, on which {3} stood beyond the live sole plane. {4}To stop there is common practice, without a source.',
            cut.kind === 'trim' ? t('lost') : t('would lose'),
            heel,
            by,
            sayPlusMinus({ ...value, unit: 'mm' }),
            cut.kind === 'trim' ? t('Protect the heels, and tell the vet. ') : '',
          ),
      measure: 'heel-surplus',
      value: taken,
      limit: value.value,
      source: t('common practice, no source'),
      related: filmOf(studied),
    };
  },
};

/** Cuts as one, for what the heels lose. */
function together(cuts: readonly CutSize[]): CutSize {
  const sum = (part: 'heelDown' | 'insideDown' | 'outsideDown'): number =>
    cuts.reduce((mm, one) => mm + (one[part] ?? 0), 0);
  return {
    ...cutOfNothing,
    heelDown: sum('heelDown'),
    insideDown: sum('insideDown'),
    outsideDown: sum('outsideDown'),
  };
}

interface Length {
  readonly value: number;
  readonly sd: number;
}

interface MostHeel {
  readonly isShod: boolean;
  /** As placed. */
  readonly placed: Length;
  /** Less the shoe that is written; null where none is, or the ground is not placed. */
  readonly lessShoe: Length | null;
}

/** mm of heel that there can be at most on the film; null where its places are not there. */
function mostHeel({ film, reading, lost }: StudiedCut): MostHeel | null {
  const frame = reading?.taking.frame;
  if (!film || !frame?.scale) return null;
  const isShod = !frame.isOnBearing && film.worn !== null;
  if (!isShod && lost?.kind !== 'two planes') return null;
  return frame.graph.scratch(() => {
    // Of a shod foot to the ground where that is placed, else square to the line between the contacts.
    const ground = isShod ? onPlane(frame, 'ground') : null;
    const standing = isShod ? (ground ?? frame) : bareFoot(frame);
    const [sole, heel] = [standing?.at('sole.heel'), standing?.at('heel.ground')];
    if (!sole || !heel) return null;
    const lengthOf = (real: typeof sole.y): Length => ({ value: real.value, sd: frame.graph.deviation(real) });
    const thickness = film.worn?.thickness ?? null;
    return {
      isShod,
      placed: lengthOf(sole.y.minus(heel.y)),
      lessShoe: ground && thickness ? lengthOf(sole.y.minus(thickness)) : null,
    };
  });
}
