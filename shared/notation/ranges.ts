import type { MeasuredRanges, Range } from './signature.ts';

/**
 * How low and how high a number of the notation may be. A range is no judgement of the animal or of the foot, those are
 * the findings: what lies outside of one was not meant as it is written. So each is as wide as what has been seen of
 * foals, donkeys, miniatures and draught horses, sick ones too, and a number out of it counts for nothing at all.
 */

/** mm for each pixel: of a film scanned at 4,800 points an inch (0.0053 mm) to a foot that is two dozen pixels long. */
export const pixelSize: Range = { low: 0.005, high: 5, unit: 'mm/px' };

/** A marker in a picture: from a wire across its end to a metre rule. */
export const markerLength: Range = { low: 1, high: 1000, unit: 'mm' };

/** What one trim takes off, anywhere. More than any toe or heel has to give. */
export const cutAmount: Range = { low: 0, high: 60, unit: 'mm' };

/** In front of the heel's contact, where a cut of the heel begins: within the longest foot. */
export const bendPlace: Range = { low: 1, high: 300, unit: 'mm' };

/** Until the next visit: a day to three years. */
export const interval: Range = { low: 1, high: 1096, unit: 'days' };

/** A place may lie outside of its picture, but no picture that is read here has more than 65,535 pixels to a side. */
export const coordinate: Range = { low: -100_000, high: 100_000, unit: 'px' };

/** One standard deviation of a placing. */
export const placingSpread: Range = { low: 0, high: 500, unit: 'px' };

/** A stated value or a limit of a measure, by the unit it is written in. Depths, reaches and tilts have a sign. */
export const measuredValue: MeasuredRanges = {
  length: { low: -500, high: 500, unit: 'mm' },
  angle: { low: -180, high: 180, unit: 'deg' },
  share: { low: -500, high: 500, unit: '%' },
  plain: { low: -500, high: 500, unit: '1' },
};

/**
 * The same taken by hand, for measures with a sign, which have no range of their own: a heel may stand short of the sole plane, and
 * nothing else on the hoof has a length below 0.
 */
export const tapedValue: MeasuredRanges = { ...measuredValue, length: { low: -50, high: 500, unit: 'mm' } };

/** By how much a stated value may be off. */
export const tolerance: MeasuredRanges = {
  length: { low: 0, high: 500, unit: 'mm' },
  angle: { low: 0, high: 180, unit: 'deg' },
  share: { low: 0, high: 500, unit: '%' },
  plain: { low: 0, high: 500, unit: '1' },
};

/** A shoe, a pad or a boot's sole: from a sheet of rubber to the tallest clog. */
export const wornThickness: Range = { low: 0.5, high: 100, unit: 'mm' };

/** By how much what is worn raises the heel over the toe; below 0 the toe over the heel. */
export const wornWedge: Range = { low: -20, high: 30, unit: 'deg' };

/** By how much a wedge raises the heel for a trim. */
export const heelWedge: Range = { low: 0, high: 30, unit: 'deg' };
