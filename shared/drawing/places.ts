import type { XY } from '../geometry/vector.ts';

/** Landmarks on the picture, by name. */
export type Places = ReadonlyMap<string, XY>;
