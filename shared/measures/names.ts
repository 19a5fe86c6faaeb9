import type { Measure, measures } from './registry.ts';

/** Types alone, so that the published values, which stand on nothing of ours, can name what they are of. */

/** The names of all measures, as the definitions of the families give them: a slip does not compile. */
export type MeasureName = Measure['name'];

export type LateralMeasureName = Extract<(typeof measures)[number], { readonly view: 'lateral' }>['name'];

/** Those seen from in front or from below. */
export type FlatMeasureName = Extract<(typeof measures)[number], { readonly view: 'front' | 'solar' }>['name'];
