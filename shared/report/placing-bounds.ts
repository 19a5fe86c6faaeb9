/**
 * How far what is placed may go. Whoever asks for more made a mistake, or is no page of ours; what is written in a file by
 * hand has its own ranges in the vocabulary.
 */
export const placingBounds = {
  /** px from the picture's corner, either way: a place may lie beside its picture, and no picture has so many. */
  px: 100_000,
  /** mm. */
  marker: { low: 1, high: 1_000 },
  /** mm off the heel in one plan. */
  heel: 60,
} as const;
