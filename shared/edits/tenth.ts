import type { XY } from '../geometry/vector.ts';

/** A place as it is written: to a tenth of a pixel. */
export const tenth = ({ x, y }: XY): XY => ({ x: Math.round(x * 10) / 10 + 0, y: Math.round(y * 10) / 10 + 0 });

/** A spread as it is written, px: to a tenth, and never none, as no place is known that well. */
export const writtenSpread = (px: number): number => Math.max(0.1, Math.round(px * 10) / 10);
