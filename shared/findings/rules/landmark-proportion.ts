import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { say } from '../wording/wording.ts';
import { lineOf, linesOf, readerWords } from './landmark-lines.ts';
import { suspectsOf } from '../landmarks/landmark-suspects.ts';

const centres = ['pastern.centre', 'coffin.centre', 'fetlock.centre'] as const;

/**
 * P1 to P2, joint centre to joint centre: about 1.7 in the drawn feet, which follow the usual proportions of the bones.
 * A third less or more than that no growth or trim brings about, as the bones keep their length. Judgement of ours.
 */
const least = 1.3;
const most = 2.2;

export const landmarkProportion: Rule = {
  code: 'landmark/proportion',
  severity: 'warning',
  title: 'Pastern bones out of proportion',
  about:
    'The long pastern bone is about 1.7 times as long as the short one, from joint centre to joint centre. Outside 1.3 to 2.2 (a judgement of ours, no source) one of the three centres is off, and with it the angles of the pastern.',
  *onReading(film, reading) {
    const value = reading.taking.values.get('phalanx-ratio');
    if (!value || (value.value >= least && value.value <= most)) return;
    const { names } = suspectsOf(film, reading);
    if (centres.some((name) => names.has(name))) return;
    const [first, ...others] = centres;
    const short = value.value > most;
    yield {
      at: lineOf(first, film, reading),
      message: t(
        'The long pastern bone comes out {0} times as long as the short one{1}; about 1.7 is usual, and beyond {2} to {3} a centre is off (judgement of ours). Look at «{4}» first: it may lie too {5}; then at «coffin.centre» and «fetlock.centre». Each is the centre of the rounded lower end of the bone above the joint.',
        say(value.value, '1'),
        readerWords(reading),
        least,
        most,
        first,
        short ? t('low') : t('high'),
      ),
      related: linesOf(others, film, reading),
      measure: value.measure.name,
      value: value.value,
      limit: short ? most : least,
      source: t('judgement of ours, no source'),
    };
  },
};
