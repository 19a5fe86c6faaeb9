import type { MeasureUnit } from '../../measures/unit.ts';
import type { Measure } from '../../measures/registry.ts';
import { isBeyondHand } from '../../measures/hand-range.ts';
import type { Quantity } from '../../record/schema.ts';

const units: Readonly<Record<MeasureUnit, readonly string[]>> = {
  deg: ['deg'],
  mm: ['mm', 'cm', 'in'],
  '%': ['%'],
  '1': [],
};

/** The units in which a value of the measure may be written; none for a plain ratio. */
export function unitsFor(measure: Pick<Measure, 'unit'>): readonly string[] {
  return units[measure.unit];
}

/** Whether a value that was taken by hand, or is stated, can be one of the measure. What cannot is reported, and counts for nothing. */
export function counts(measure: Measure, quantity: Quantity): boolean {
  return fits(measure, quantity) && !isBeyondHand(measure, quantity);
}

/** Whether a written quantity is one of the measure's kind. What does not fit is reported, and counts for nothing. */
export function fits(measure: Pick<Measure, 'unit'>, quantity: Quantity): boolean {
  return measure.unit === '1' ? quantity.unit === '1' : unitsFor(measure).includes(quantity.unit);
}
