import type { MeasureName } from '../../measures/names.ts';
import { findMeasure, type Measure } from '../../measures/registry.ts';
import { once } from '../../notation/once.ts';
import type { Limit, Placed } from '../../record/schema.ts';
import { fits } from './fitting-units.ts';

/** What a case says of one measure, in a unit that fits it. */
export interface LimitsOfMeasure {
  readonly measure: Measure;
  readonly first: Placed<Limit>;
  /** The last of its kind, which counts. */
  readonly low: Placed<Limit> | undefined;
  readonly high: Placed<Limit> | undefined;
}

/** The limits of a case by measure, in the order in which they are first named; looked through once for a case. */
export const limitsByMeasure = once((limits: readonly Placed<Limit>[]): ReadonlyMap<MeasureName, LimitsOfMeasure> => {
  const all = new Map<MeasureName, LimitsOfMeasure>();
  for (const limit of limits) {
    const measure = findMeasure(limit.is.measure);
    if (!measure || !fits(measure, limit.is.quantity)) continue;
    const before = all.get(measure.name) ?? { measure, first: limit, low: undefined, high: undefined };
    all.set(measure.name, { ...before, [limit.is.relation === '>=' ? 'low' : 'high']: limit });
  }
  return all;
});
