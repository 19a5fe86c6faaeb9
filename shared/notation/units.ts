import { spokenRows } from '../language/rows.ts';
import { decimal } from './decimal.ts';
import type { Dimension } from './signature.ts';

export interface Unit {
  readonly word: string;
  readonly dimension: Dimension;
  /** Size in the dimension's own base unit: mm, deg, %, kg, days, mm/px, or the laboratory's usual unit. */
  readonly size: number;
  /** What 0 of it is in the base unit, where that is not 0. */
  readonly zero?: number;
  readonly doc: string;
}

/** Inches, pounds and hands are exact by definition (international yard and pound, 1959). */
const inch = 25.4;

// prettier-ignore
export const units: readonly Unit[] = spokenRows([
  { word: 'mm', dimension: 'length', size: 1, doc: 'Millimetre.' },
  { word: 'cm', dimension: 'length', size: 10, doc: 'Centimetre, 10 mm.' },
  { word: 'in', dimension: 'length', size: inch, doc: 'Inch, 25.4 mm.' },
  { word: 'cm', dimension: 'stature', size: 10, doc: 'Centimetre, 10 mm.' },
  { word: 'mm', dimension: 'stature', size: 1, doc: 'Millimetre.' },
  { word: 'in', dimension: 'stature', size: inch, doc: 'Inch, 25.4 mm.' },
  { word: 'hh', dimension: 'stature', size: 4 * inch, doc: 'Hands: 14.2 hh is 14 hands and 2 inches; a hand is 4 inches.' },
  { word: 'deg', dimension: 'angle', size: 1, doc: 'Degree.' },
  { word: '%', dimension: 'share', size: 1, doc: 'Per cent.' },
  { word: 'kg', dimension: 'mass', size: 1, doc: 'Kilogram.' },
  { word: 'lb', dimension: 'mass', size: 0.45359237, doc: 'Pound, 0.45359237 kg.' },
  { word: 'days', dimension: 'time', size: 1, doc: 'Days.' },
  { word: 'weeks', dimension: 'time', size: 7, doc: 'Weeks of 7 days.' },
  { word: 'months', dimension: 'time', size: 365.25 / 12, doc: 'Months; as a length of time, a twelfth of 365.25 days.' },
  { word: 'mm/px', dimension: 'resolution', size: 1, doc: 'Millimetres for each pixel of the picture.' },
  { word: 'uIU/mL', dimension: 'insulin', size: 1, doc: 'Micro-units of insulin a millilitre.' },
  { word: 'mIU/L', dimension: 'insulin', size: 1, doc: 'The same as uIU/mL.' },
  { word: 'mU/L', dimension: 'insulin', size: 1, doc: 'The same as uIU/mL.' },
  { word: 'pmol/L', dimension: 'insulin', size: 1 / 6, doc: 'Picomoles a litre; laboratories divide by about 6 to 6.945 (from memory), so keep to one unit.' },
  { word: 'pg/mL', dimension: 'acth', size: 1, doc: 'Picograms a millilitre.' },
  { word: 'pmol/L', dimension: 'acth', size: 4.541, doc: 'Picomoles a litre; 1 pmol/L is 4.541 pg/mL.' },
  { word: 'mmol/L', dimension: 'glucose', size: 1, doc: 'Millimoles a litre.' },
  { word: 'mg/dL', dimension: 'glucose', size: 1 / 18.016, doc: 'Milligrams a decilitre; 18.016 mg/dL is 1 mmol/L.' },
  { word: 'mmol/L', dimension: 'triglycerides', size: 1, doc: 'Millimoles a litre.' },
  { word: 'mg/dL', dimension: 'triglycerides', size: 1 / 88.57, doc: 'Milligrams a decilitre; 88.57 mg/dL is 1 mmol/L (from memory).' },
  // Kept as written: how much a mole weighs hangs on the hormone.
  { word: 'nmol/L', dimension: 'hormone', size: 1, doc: 'Nanomoles a litre.' },
  { word: 'pmol/L', dimension: 'hormone', size: 1, doc: 'Picomoles a litre.' },
  { word: 'ug/dL', dimension: 'hormone', size: 1, doc: 'Micrograms a decilitre.' },
  { word: 'ug/mL', dimension: 'hormone', size: 1, doc: 'Micrograms a millilitre.' },
  { word: 'ng/mL', dimension: 'hormone', size: 1, doc: 'Nanograms a millilitre.' },
  { word: 'pg/mL', dimension: 'hormone', size: 1, doc: 'Picograms a millilitre.' },
  { word: 'mIU/L', dimension: 'hormone', size: 1, doc: 'Milli-units a litre.' },
  { word: 'minutes', dimension: 'delay', size: 1, doc: 'Minutes.' },
  { word: 'C', dimension: 'warmth', size: 1, doc: 'Degrees Celsius.' },
  { word: 'F', dimension: 'warmth', size: 5 / 9, zero: -160 / 9, doc: 'Degrees Fahrenheit; 100 F is 37.8 C.' },
], 'doc');

const singular: Readonly<Record<string, string>> = { day: 'days', week: 'weeks', month: 'months', minute: 'minutes' };

/** Other spellings of units, in small letters; each means one. */
const spellings: Readonly<Record<string, string>> = {
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  inch: 'in',
  inches: 'in',
  ins: 'in',
  hand: 'hh',
  hands: 'hh',
  '°': 'deg',
  degree: 'deg',
  degrees: 'deg',
  percent: '%',
  pct: '%',
  wk: 'weeks',
  wks: 'weeks',
  mth: 'months',
  mths: 'months',
  min: 'minutes',
  mins: 'minutes',
  'uu/ml': 'uIU/mL',
  '°c': 'C',
  '°f': 'F',
  celsius: 'C',
  fahrenheit: 'F',
};

const byWord = new Map<string, Unit[]>();
for (const unit of units) byWord.set(unit.word, [...(byWord.get(unit.word) ?? []), unit]);

const bySmallWord = new Map<string, Unit[]>();
for (const [word, found] of byWord) bySmallWord.set(word.toLowerCase(), found);

/** The units of one word, however it is spelled. */
function unitsCalled(word: string): readonly Unit[] {
  const exact = byWord.get(word);
  if (exact) return exact;
  const small = word.replace(/[µμ]/g, 'u').toLowerCase();
  return (
    bySmallWord.get(small) ??
    byWord.get(
      (Object.hasOwn(singular, small) && singular[small]) ||
        (Object.hasOwn(spellings, small) && spellings[small]) ||
        '',
    ) ??
    []
  );
}

/** A unit as it is usually written behind a number: `kg` for `kgs`; `1 day` and `2 days` stay. */
export function usualUnit(word: string, number: string): string {
  const [unit] = unitsCalled(word);
  if (!unit) return word;
  const one = Object.entries(singular).find(([, many]) => many === unit.word)?.[0];
  return one !== undefined && word.toLowerCase() === one && Number(number) === 1 ? one : unit.word;
}

export function findUnit(word: string, dimension: Dimension): Unit | undefined {
  return unitsCalled(word).find((unit) => unit.dimension === dimension);
}

export function isUnit(word: string): boolean {
  return unitsCalled(word).length > 0;
}

export function unitsOf(dimension: Dimension): readonly Unit[] {
  return units.filter((unit) => unit.dimension === dimension);
}

/**
 * A written quantity in the dimension's base unit. Hands count inches after the point (14.2 hh is 58 inches),
 * so 14.4 hh and above names no height and gives undefined.
 */
export function toBase(image: string, unit: Unit): number | undefined {
  if (unit.word !== 'hh') return decimal(image) * unit.size + (unit.zero ?? 0);
  const [hands = '0', inches = '0'] = image.split('.');
  const extra = Number(`${inches[0]}.${inches.slice(1) || '0'}`);
  return extra < 4 ? (Number(hands) * 4 + extra) * inch : undefined;
}
