import { decimal } from './decimal.ts';
import { inBase, isOut, type Bounds } from './in-range.ts';
import type { Dimension, Range } from './signature.ts';
import { findUnit, toBase, unitsOf } from './units.ts';

/** What was meant by a number that is out of its range, where one slip of the hand explains it. */

export interface WrittenNumber {
  readonly image: string;
  /** Null for a plain number. */
  readonly unit: string | null;
}

/** What a written number is worth where it lies in its range; null where it does not. */
export type Worth = (written: WrittenNumber) => number | null;

/**
 * Another unit, a digit too many or too few, a decimal point one place off, a sign: what was meant, if exactly one of these
 * leads into the range. Two that come to the same are one.
 */
export function meant({ image, unit }: WrittenNumber, worth: Worth, units: readonly string[]): WrittenNumber | null {
  // Where there is a sign, it is what first looks wrong.
  const figures = image.startsWith('-') ? [image.slice(1)] : [tenTimes(image), aTenth(image)];
  const tries: WrittenNumber[] = [
    ...units.filter((other) => other !== unit).map((other) => ({ image, unit: other })),
    ...figures.map((other) => ({ image: other, unit })),
  ];
  const found = new Map<string, WrittenNumber>();
  for (const written of tries) {
    const value = worth(written);
    // Units that are not whole multiples of one another agree in so many figures and no more.
    const key = value?.toPrecision(9);
    if (key !== undefined && !found.has(key)) found.set(key, written);
  }
  const [only, ...others] = found.values();
  return only && others.length === 0 ? only : null;
}

export function worthOfQuantity(range: Range, dimension: Dimension): Worth {
  const bounds = inBase(range, dimension);
  return ({ image, unit }) => {
    const known = unit === null ? undefined : findUnit(unit, dimension);
    const base = known && toBase(image, known);
    return base === undefined || isOut(image, base, bounds) ? null : base;
  };
}

export function worthOfNumber(bounds: Bounds, step?: number): Worth {
  return ({ image }) => {
    const value = decimal(image);
    const even = step === undefined || Number.isInteger(value / step);
    return !even || isOut(image, value, bounds) ? null : value;
  };
}

/** The units in which a number lies in its range; all of the dimension where it does in none. */
export function fittingUnits(image: string, range: Range, dimension: Dimension): string[] {
  const worth = worthOfQuantity(range, dimension);
  const units = unitsOf(dimension).map((unit) => unit.word);
  const fitting = units.filter((unit) => worth({ image, unit }) !== null);
  return fitting.length > 0 ? fitting : units;
}

/** Metres as centimetres. */
export function hundredTimes(image: string): string {
  return tenTimes(tenTimes(image));
}

function tenTimes(image: string): string {
  const [whole = '', fraction = ''] = image.split('.');
  return plainly(`${whole}${fraction.slice(0, 1) || '0'}`, fraction.slice(1));
}

function aTenth(image: string): string {
  const [whole = '', fraction = ''] = image.split('.');
  return plainly(whole.slice(0, -1) || '0', `${whole.slice(-1)}${fraction}`);
}

function plainly(whole: string, fraction: string): string {
  const bare = whole.replace(/^0+(?=\d)/, '');
  const rest = fraction.replace(/0+$/, '');
  return rest === '' ? bare : `${bare}.${rest}`;
}
