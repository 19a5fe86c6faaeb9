import { t } from '../language/words.ts';
import type { Dimension, MeasuredRanges, Range } from './signature.ts';
import { findUnit, type Unit } from './units.ts';

/** Whether a number lies in its range, and the range in words. */

export type Bounds = Pick<Range, 'low' | 'high'>;

/** Far less than anybody writes, more than is lost on the way through another unit. */
const lost = 1e-9;

/** On which side a value in the range's own unit lies outside; null where it lies within. What is no number lies above. */
export function outside(value: number, { low, high }: Bounds): 'below' | 'above' | null {
  if (Number.isNaN(value)) return 'above';
  if (value < low - lost * Math.abs(low)) return 'below';
  return value > high + lost * Math.abs(high) ? 'above' : null;
}

/** The same of a number as it is written: a minus before what is never below 0 is a slip, even before a 0. */
export function isOut(image: string, value: number, bounds: Bounds): boolean {
  return outside(value, bounds) !== null || (bounds.low >= 0 && image.startsWith('-'));
}

/** A range as its dimension counts: in mm, kg, days, … */
export function inBase({ low, high, unit }: Range, dimension: Dimension): Bounds {
  const { size, zero = 0 } = findUnit(unit, dimension) ?? { size: 1 };
  return { low: low * size + zero, high: high * size + zero };
}

/** The same range in another unit of its dimension, rounded inwards to figures that a person would write. */
export function inUnit(range: Range, dimension: Dimension, unit: Unit): Range {
  if (range.unit === unit.word) return range;
  const { low, high } = inBase(range, dimension);
  if (unit.word === 'hh') {
    const inch = unit.size / 4;
    return { low: inHands(Math.ceil(low / inch)), high: inHands(Math.floor(high / inch)), unit: unit.word };
  }
  const { size, zero = 0 } = unit;
  return { low: -roundedDown((zero - low) / size), high: roundedDown((high - zero) / size), unit: unit.word };
}

/** To three figures, or to the whole number where that is finer. */
function roundedDown(value: number): number {
  if (value === 0) return 0;
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  const scaled = value * 10 ** decimals;
  const nearest = Math.round(scaled);
  const whole = Math.abs(scaled - nearest) <= lost * Math.abs(scaled) ? nearest : Math.floor(scaled);
  return Number((whole / 10 ** decimals).toFixed(decimals));
}

/** Inches as hands and inches: 86 is 21.2. */
const inHands = (inches: number): number => Math.floor(inches / 4) + (inches % 4) / 10;

/** `50 to 220 cm`; `0 to 4` for plain numbers. */
export function sayRange({ low, high, unit }: Range): string {
  return t('{0} to {1}{2}', low, high, unit === '1' ? '' : ` ${unit}`);
}

/** Which range a unit asks for where a measure decides; undefined for a unit that no measure is given in. */
export function measuredKind(unit: string | null): keyof MeasuredRanges | undefined {
  if (unit === null) return 'plain';
  return (['length', 'angle', 'share'] as const).find((dimension) => findUnit(unit, dimension));
}
