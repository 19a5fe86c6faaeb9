/** Units of measures: `1` for a plain ratio. */
export const measureUnits = ['deg', 'mm', '%', '1'] as const;
export type MeasureUnit = (typeof measureUnits)[number];
