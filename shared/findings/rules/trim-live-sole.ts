import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import type { StudiedCut } from '../../trim/study.ts';
import { lowerOf } from '../../trim/predict.ts';
import { seenAfter } from '../../trim/stand.ts';
import { cutRule, type BrokenCut } from '../limits/cut-rule.ts';
import { list, say, sayPlusMinus, sentence } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

const places = spoken({ tip: 'under the tip of the bone', wing: 'under the wing', heel: 'beside the heel' });
function wayOut({ size, foot }: StudiedCut): string {
  const { heelDown, toeDown } = size;
  if (foot && seenAfter(foot, size).whole > 0)
    return t(' Take less off both sides: together they lower the whole foot.');
  if (toeDown === 0) return t(' Take less heel.');
  return heelDown === 0
    ? t(' Leave the toe alone.')
    : t(' Take less, or leave the toe alone and take height from the heels only.');
}

function soleCuts({ size, before, broken }: BrokenCut): { place: keyof typeof places; depth: number; sd: number }[] {
  const surplus = before.get('heel-surplus');
  // A heel cut below the sole plane is told as that.
  const heelTold = surplus !== undefined && size.heelDown > surplus.value;
  return broken.flatMap(({ place, value, sd }) =>
    place === null || (place === 'heel' && heelTold) ? [] : [{ place, depth: -value, sd }],
  );
}

export const liveSole = cutRule({
  code: 'trim/live-sole',
  severity: 'error',
  title: 'Cut into live sole',
  about:
    'The new bearing line passes above the ground side of the sole, so sole would be taken. Under the tip of the bone lie the solar corium and its vessels, with little to spare.',
  never: 'Take less: under live sole lie the corium and the bone.',
  *say(studied, outcome, _study, done) {
    const cuts = soleCuts(outcome);
    const [worst] = cuts.toSorted((a, b) => b.depth - a.depth);
    if (!worst) return;
    const measure = worst.place === 'heel' ? 'heel-surplus' : (`sole-depth.${worst.place}` as const);
    const left = worst.place === 'heel' ? undefined : lowerOf(outcome.prediction, measure);
    yield {
      at: cutPlace(studied, worst.place === 'tip' ? 'toe' : 'heel'),
      message:
        `${done ? t('Live sole was taken') : t('This plan takes live sole')}: ${list(cuts.map(({ place, depth, sd }) => `${sayPlusMinus({ value: depth, sd, unit: 'mm' })} ${places[place]}`))}.` +
        (left
          ? t(
              ' {0} {1} of sole {2} left.',
              sentence(places[worst.place]),
              say(left.value, 'mm'),
              done ? t('are') : t('would be'),
            )
          : '') +
        t(
          '{0} That no live sole is cut is common practice, without a source.',
          done ? t(' Protect the foot, and tell the vet.') : wayOut(studied),
        ),
      measure,
      value: left?.value ?? worst.depth,
      limit: 0,
      source: t('common practice, no source'),
      related: filmOf(studied),
    };
  },
});
