import { t } from '../../language/words.ts';
import type { Placing } from '../../record/schema.ts';
import type { Rule } from '../rule.ts';
import { readerWords } from './landmark-lines.ts';
import { suspectsOf } from '../landmarks/landmark-suspects.ts';
import type { Pixel } from '../landmarks/typical-fit.ts';

const written = ({ x, y }: Pixel): string => `${Math.round(x)}, ${Math.round(y)}`;

export const landmarkFarOff: Rule = {
  code: 'landmark/far-off',
  severity: 'warning',
  title: 'Landmark far off the others',
  about:
    'A point lies where, by the other points, no foot of whatever shape has it: most often a digit too few or too many. It takes five points to tell. Left of or above the picture it is an error, and is told with fewer points too.',
  *onReading(film, reading) {
    const { far, fit } = suspectsOf(film, reading);
    const expected = ({ name }: Placing): Pixel | null => fit && fit.expected(name);
    for (const placing of reading.reading.placings) {
      const off = far.includes(placing);
      const outside = placing.x < 0 || placing.y < 0;
      // A joint centre just beyond the picture’s edge can be told from the rim of the joint; it then fits the others.
      if (!off && !(outside && !fit)) continue;
      const about = off ? expected(placing) : null;
      const where = outside
        ? t('lies outside the picture, at {0}: x and y count from its upper left corner', written(placing))
        : t('lies at {0}, far from where a foot has it', written(placing));
      yield {
        at: placing.at,
        severity: outside ? 'error' : 'warning',
        message: t(
          '«{0}»{1} {2}.{3} Look for a digit too few or too many, or place the point again.',
          placing.name,
          readerWords(reading),
          where,
          about ? t(' By the other points it is to be expected near {0}.', written(about)) : '',
        ),
      };
    }
  },
};
