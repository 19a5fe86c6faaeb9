import type { XY } from '../geometry/vector.ts';

/** A place as it is written: to a tenth of a pixel. */
export const tenth = ({ x, y }: XY): XY => ({ x: Math.round(x * 10) / 10 + 0, y: Math.round(y * 10) / 10 + 0 });
