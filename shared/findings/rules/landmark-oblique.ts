import { t } from '../../language/words.ts';
import { distance } from '../../geometry/point.ts';
import type { Rule } from '../rule.ts';
import { SURELY } from '../../course/change.ts';
import { lineOf, linesOf, readerWords } from './landmark-lines.ts';
import { suspectsOf } from '../landmarks/landmark-suspects.ts';

/**
 * Both wings apart, in per cent of the bone's length from tip to wing. With the beam square to the foot they overlap; at
 * 8 per cent, some 6 mm on a cob, the midpoint that is measured from is worth a second look. Judgement of ours.
 */
const most = 8;

export const landmarkOblique: Rule = {
  code: 'landmark/oblique',
  severity: 'warning',
  title: 'Film not square to the foot',
  about:
    'The two wings of the pedal bone lie far apart, more than 8 per cent of its length (a judgement of ours, no source). The beam was not square to the foot, so that angles and lengths come out wrong, or one wing is placed on another edge.',
  *onReading(film, reading) {
    const { frame } = reading.taking;
    const tip = frame?.at('p3.tip');
    const middle = frame?.at('p3.wing');
    const other = frame?.at('p3.wing.other');
    if (!frame || !tip || !middle || !other || !reading.reading.placings.some(({ name }) => name === 'p3.wing')) return;
    const { names } = suspectsOf(film, reading);
    if ((['p3.tip', 'p3.wing', 'p3.wing.other'] as const).some((name) => names.has(name))) return;
    // The frame's wing is the middle of the two, so each lies half their distance from it.
    const { share, sd } = frame.graph.scratch(() => {
      const apart = distance(middle, other).over(distance(tip, middle)).times(200);
      return { share: apart.value, sd: frame.graph.deviation(apart) };
    });
    if (!(share > Math.max(most, SURELY * sd))) return;
    yield {
      at: lineOf('p3.wing.other', film, reading),
      message: t(
        'The two wings lie {0} % of the bone’s length apart{1}; with the beam square to the foot they nearly overlap (beyond {2} % is a judgement of ours). Look at «p3.wing» and «p3.wing.other»: are both on the lower edge of the bone? If so, the film is oblique: trust its numbers less, and take the next one square to the foot.',
        share.toFixed(0),
        readerWords(reading),
        most,
      ),
      related: linesOf(['p3.wing'], film, reading),
      value: share,
      limit: most,
      source: t('judgement of ours, no source'),
    };
  },
};
