import type { XY } from '../geometry/vector.ts';

/** Landmarks on the picture, by name. */
export type LandmarkPositions = ReadonlyMap<string, XY>;
