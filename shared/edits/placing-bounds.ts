import { bendPlace, coordinate, cutAmount, markerLength, placingSpread } from '../notation/ranges.ts';

/**
 * How far what is placed may go: no further than what may be written, as a file that was placed on is read again. Whoever
 * asks for more made a mistake, or is no page of ours.
 */
export const placingBounds = {
  /** px from the picture's corner, either way: a place may lie beside its picture, and no picture has so many. */
  px: coordinate.high,
  /** Of a landmark, px. */
  spread: { low: placingSpread.low, high: placingSpread.high },
  /** mm. */
  marker: markerLength,
  /** mm off the heel in one plan, and mm in front of its contact from where it has a plane of its own. */
  heel: { down: cutAmount.high, from: bendPlace.high },
} as const;
