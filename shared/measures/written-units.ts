import type { MeasureUnit } from './unit.ts';

const units: Readonly<Record<MeasureUnit, readonly string[]>> = {
  deg: ['deg'],
  mm: ['mm', 'cm', 'in'],
  '%': ['%'],
  '1': [],
};

/** The units in which a value of the measure may be written; none for a plain ratio. */
export function unitsFor(measure: { readonly unit: MeasureUnit }): readonly string[] {
  return units[measure.unit];
}
