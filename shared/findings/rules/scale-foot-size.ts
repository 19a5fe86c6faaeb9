import { fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import { footSize } from '../../geometry/foot-size.ts';
import { plainScale, type FootInput, type ScaleInput } from '../../geometry/foot-input.ts';
import { outside, sayRange } from '../../notation/in-range.ts';
import type { Fix } from '../../notation/problems.ts';
import { markerLength, pixelSize } from '../../notation/ranges.ts';
import { meant, worthOfNumber, worthOfQuantity, type Worth } from '../../notation/slips.ts';
import { unitsOf } from '../../notation/units.ts';
import type { Film } from '../../record/schema.ts';
import type { Rule } from '../rule.ts';
import { linesOf, readerWords } from './landmark-lines.ts';
import { list } from '../wording/wording.ts';

export const scaleFootSize: Rule = {
  code: 'scale/foot-size',
  severity: 'error',
  title: 'A foot of impossible size',
  about:
    'By the scale of the film the foot would be larger or smaller than that of any horse, pony, donkey or mule, from the newborn of a miniature breed to a heavy draught horse (judgements of ours, wide on purpose: a pedal bone from 20 to 130 mm long, a bearing length from 30 to 300 mm where the bone is not placed). Such a scale is a slip: a digit too many, another unit, the wrong ends of a marker. It counts as none: no length of the film is given, held against a limit, followed or planned with. Angles and ratios stay. With a wrong scale a thin sole would pass for a thick one.',
  never: 'Mend the scale, or the places of the landmarks that are named: without either no length can be judged.',
  *onReading(studied, reading) {
    const { film, readings, stored, bone } = studied;
    const odd = reading.taking.oddSize;
    if (!odd || reading !== readings.find(({ taking }) => taking.oddSize)) return;
    const instead = film.scale && slip(film, reading.input);
    const whose =
      film.scale?.kind === 'bone' && bone ? t(' Look at the scales of the other films of the foot too.') : '';
    const says = film.scale?.kind === 'dicom' && stored && 'mmPerPx' in stored ? ` ${stored.words}` : '';
    const places =
      odd.names.length > 0 ? t(', and the places of {0}', list(odd.names)) : t(' and the places of the landmarks');
    yield {
      at: film.scale?.at ?? film.head,
      message: t(
        'By this scale {0} would be {1}{2}; in a horse, pony, donkey or mule it goes from {3} (a judgement of ours). So the scale counts as none, and no length of this film is given.{4}{5} Check the scale{6}.{7}',
        odd.words,
        sayMm(odd.mm),
        readerWords(reading),
        sayRange(odd.possible),
        says,
        instead ? t(' Did you mean {0}?', instead.words) : '',
        places,
        whose,
      ),
      value: odd.mm,
      limit: odd.mm < odd.possible.low ? odd.possible.low : odd.possible.high,
      source: t('judgement of ours, no source'),
      related: linesOf(odd.names, studied, reading, t('It is taken from this point.')),
      fixes: instead ? [instead.fix] : [],
    };
  },
};

const sayMm = (mm: number): string => `${fixed(mm, mm < 100 ? 1 : 0)} mm`;

/** The one slip of writing by which the foot comes to a usual size; null where none does, or more than one. */
function slip({ scale }: Film, input: FootInput): { readonly words: string; readonly fix: Fix } | null {
  const usual = (other: ScaleInput): boolean => isUsual({ ...input, scale: other });
  const held = (worth: Worth, scaled: (base: number) => ScaleInput): Worth => {
    return (written) => {
      const base = worth(written);
      return base !== null && usual(scaled(base)) ? base : null;
    };
  };
  if (scale?.kind === 'marker' && input.scale?.kind === 'marker') {
    const { length } = scale;
    const { ends } = input.scale;
    const worth = held(worthOfQuantity(markerLength, 'length'), (mm) => ({ kind: 'marker', mm, ends }));
    const units = unitsOf('length').map(({ word }) => word);
    const other = meant({ image: String(length.value), unit: length.unit }, worth, units);
    return other && replaced(length.at, `${other.image} ${other.unit}`);
  }
  if (scale?.kind !== 'pixel') return null;
  const worth = held(worthOfNumber(pixelSize), (mmPerPx) => ({ kind: 'pixel', mmPerPx }));
  const other = meant({ image: String(scale.mmPerPx), unit: null }, worth, []);
  return other && replaced(scale.at, `scale ${other.image} mm/px`, `${other.image} mm/px`);
}

function replaced(at: { start: number; end: number }, text: string, words = text): { words: string; fix: Fix } {
  return { words, fix: { title: t('Write {0}', words), edits: [{ start: at.start, end: at.end, text }] } };
}

/** Whether a foot has the size that most have. */
function isUsual(input: FootInput): boolean {
  const mmPerPx = plainScale(input);
  const length = mmPerPx === null ? null : footSize(input, mmPerPx);
  return length !== null && outside(length.mm, length.likely) === null;
}
