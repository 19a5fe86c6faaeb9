import { isBeyondHand } from '../../measures/hand-range.ts';
import type { Measure } from '../../measures/registry.ts';
import { unitsFor } from '../../measures/written-units.ts';
import type { Quantity } from '../../record/schema.ts';

export { unitsFor } from '../../measures/written-units.ts';

/** Whether a value that was taken by hand, or is stated, can be one of the measure. What cannot is reported, and counts for nothing. */
export function counts(measure: Measure, quantity: Quantity): boolean {
  return fits(measure, quantity) && !isBeyondHand(measure, quantity);
}

/** Whether a written quantity is one of the measure's kind. What does not fit is reported, and counts for nothing. */
export function fits(measure: Pick<Measure, 'unit'>, quantity: Quantity): boolean {
  return measure.unit === '1' ? quantity.unit === '1' : unitsFor(measure).includes(quantity.unit);
}
