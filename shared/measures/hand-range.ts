import { outside } from '../notation/in-range.ts';
import type { Quantity } from '../record/schema.ts';
import type { Measure } from './registry.ts';

/** Whether a value that is written of a measure is none that a hoof has: it is told, and counts for nothing. */
export function isBeyondHand({ byHand }: Measure, { base }: Pick<Quantity, 'base'>): boolean {
  return byHand !== null && outside(base, byHand) !== null;
}
