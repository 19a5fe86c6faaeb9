/** Where a value lies, as a word; `unsure` where it passes a line within the error, `none` where there is no line. */
export const rangeStates = ['within', 'low', 'high', 'act', 'unsure', 'none'] as const;
export type RangeState = (typeof rangeStates)[number];
