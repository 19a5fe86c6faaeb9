import { figures, fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import type { Change } from '../../course/change.ts';
import type { Value } from '../../measures/take.ts';
import type { MeasureUnit } from '../../measures/unit.ts';
import type { Measure } from '../../measures/registry.ts';
import type { FootName } from '../../notation/choices.ts';

export { wordList as list } from '../../notation/word-list.ts';

/** A number as people read it: `7.4°`, `12.3 mm`, `24 %`. */
export function say(value: number, unit: MeasureUnit, decimals = unit === '1' ? 2 : 1): string {
  // What rounds to nothing has no sign.
  const rounded = minus(fixed(Math.abs(value) < 0.5 * 10 ** -decimals ? 0 : value, decimals));
  switch (unit) {
    case 'deg':
      return `${rounded}°`;
    case '1':
      return rounded;
    default:
      return `${rounded} ${unit}`;
  }
}

/** Two values of which one is more, each with so many decimals that it shows, four at most. */
export function sayApart(one: number, other: number, unit: MeasureUnit): [string, string] {
  for (let decimals = 1; decimals < 4; decimals++) {
    const said: [string, string] = [say(one, unit, decimals), say(other, unit, decimals)];
    if (said[0] !== said[1]) return said;
  }
  return [say(one, unit, 4), say(other, unit, 4)];
}

/** What is said beside a change. */
export function sayClear({ clear, doubted }: { readonly clear: boolean; readonly doubted: boolean }): string {
  return doubted ? t('scale in doubt') : clear ? t('clear') : t('within the error');
}

/** With a true minus sign: a hyphen before a figure reads as a dash. */
const minus = (figures: string): string => figures.replace('-', '\u2212');

/** A limit, without decimals that nobody set: `10°`, `13.9 mm`. */
export function sayLimit(value: number, unit: MeasureUnit): string {
  const rounded = minus(figures(Math.round(value * 10) / 10));
  return unit === 'deg' ? `${rounded}°` : unit === '1' ? rounded : `${rounded} ${unit}`;
}

/** `9.5 ± 0.7 mm`, `7.4 ± 0.6°`, as it is said in a sentence; one standard deviation. */
export function sayPlusMinus({ value, unit, sd }: Pick<Value, 'value' | 'unit' | 'sd'>): string {
  const decimals = unit === '1' ? 2 : 1;
  const figures = say(value, '1', decimals);
  const suffix = unit === 'deg' ? '°' : unit === '1' ? '' : ` ${unit}`;
  return `${figures} ± ${fixed(sd, decimals)}${suffix}`;
}

/** `7.4° ± 0.6`, one standard deviation, as it stands in a table. */
export function sayWithSpread({ value, unit, sd }: Pick<Value, 'value' | 'unit' | 'sd'>): string {
  return `${say(value, unit)} ± ${fixed(sd, unit === '1' ? 2 : 1)}`;
}

/** `+2.1°`, with its sign; a change that rounds to nothing has none. */
export function saySigned(value: number, unit: MeasureUnit, decimals?: number): string {
  const said = say(value, unit, decimals);
  return value > 0 && /[1-9]/.test(said) ? `+${said}` : said;
}

/** `−2.1° (clear)`, or `(within the error)`. */
export function sayChange({ difference, clear }: Pick<Change, 'difference' | 'clear'>, unit: MeasureUnit): string {
  return `${saySigned(difference, unit)} (${clear ? t('clear') : t('within the error')})`;
}

/** The trade's words for a measure on this foot: a hind foot has a plantar angle. */
export function wordsFor(measure: Measure, foot: FootName): string {
  if (!foot.endsWith('H')) return measure.words;
  switch (measure.name) {
    case 'palmar-angle':
      return t('plantar angle');
    case 'palmar-angle.bearing':
      return t('plantar angle to the bearing plane');
    default:
      return measure.words;
  }
}

/** Something said of an angle to the ground: on a foot that was taken off its shoe that is the bearing plane, and it is said so. */
export const toBearing = (words: string, { isUnshod }: { readonly isUnshod?: boolean | undefined }): string =>
  isUnshod ? t('{0} to the bearing plane', words) : words;

export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const footWords: Readonly<Record<FootName, string>> = spoken({
  LF: 'left fore',
  RF: 'right fore',
  LH: 'left hind',
  RH: 'right hind',
});
