/** However well a picture tells a place: its edge is not quite that of a bone (docs/placing.md). */
const LEAST = { mm: 0.2, px: 1 } as const;

/** No finer than this is a spread written that a picture told, pixels; `mmPerPx` null without a scale. */
export const leastSpread = (mmPerPx: number | null): number => (mmPerPx === null ? LEAST.px : LEAST.mm / mmPerPx);
