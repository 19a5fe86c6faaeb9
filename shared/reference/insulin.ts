import { sources } from './sources.ts';

/** Of the ponies whose insulin lay in a band: how many in a hundred had laminitis within four years, with the 95 % interval. */
export interface InsulinBand {
  /** µIU/mL; the first band goes from nothing, the last has no end. */
  readonly from: number;
  readonly to: number | null;
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/** Unfasted, without sugar: `< 21.6`, `21.6 to 45.2`, `> 45.2` in the abstract. */
export const basalInsulin: readonly InsulinBand[] = [
  { from: 0, to: 21.6, share: 6, low: 2, high: 9 },
  { from: 21.6, to: 45.2, share: 22, low: 10, high: 33 },
  { from: 45.2, to: null, share: 69, low: 48, high: 82 },
];

/** An hour after 0.3 ml of corn syrup a kilogram: `< 53.4`, `53.4 to 153`, `≥ 153`. */
export const insulinAfterSyrup: readonly InsulinBand[] = [
  { from: 0, to: 53.4, share: 3, low: 0, high: 6 },
  { from: 53.4, to: 153, share: 20, low: 10, high: 29 },
  { from: 153, to: null, share: 73, low: 52, high: 84 },
];

/** The ponies had no laminitis when their blood was taken; 24 premises. */
export const insulinStudy = { ponies: 374, cite: sources.knowles.cite } as const;
