import type { Rule } from '../rule.ts';
import { cutPlace, filmOf } from './trim-film.ts';
import { list, say, sentence } from '../wording.ts';

const places = { tip: 'under the tip of the bone', wing: 'under the wing', heel: 'beside the heel' } as const;

export const liveSole: Rule = {
  code: 'trim/live-sole',
  severity: 'error',
  title: 'Cut into live sole',
  about:
    'The new bearing line passes above the ground side of the sole, so sole would be taken. Under the tip of the bone lie the solar corium and its vessels, with little to spare.',
  *onCut(studied) {
    const { prediction, reading, size } = studied;
    if (!prediction) return;
    const surplus = reading?.taking.values.get('heel-surplus');
    const heelSaid = surplus !== undefined && size.heelDown > surplus.value;
    const cuts = (['tip', 'wing', 'heel'] as const)
      .map((place) => ({ place, depth: prediction.soleCut[place] ?? 0 }))
      .filter(({ place, depth }) => depth > 0.05 && !(place === 'heel' && heelSaid));
    const [worst] = cuts.toSorted((a, b) => b.depth - a.depth);
    if (!worst) return;
    const measure = worst.place === 'heel' ? 'heel-surplus' : `sole-depth.${worst.place}`;
    const left = worst.place === 'heel' ? undefined : prediction.values.get(measure);
    yield {
      at: cutPlace(studied, worst.place === 'tip' ? 'toe' : 'heel'),
      message:
        `This ${studied.cut.kind} takes live sole: ${list(cuts.map(({ place, depth }) => `${say(depth, 'mm')} ${places[place]}`))}.` +
        (left ? ` ${sentence(places[worst.place])} ${say(left.value, 'mm')} of sole would be left.` : '') +
        ' Take less, or leave the toe alone and take height from the heels only.',
      measure,
      value: left?.value ?? worst.depth,
      limit: 0,
      source: 'common practice, no source',
      related: filmOf(studied),
    };
  },
};
