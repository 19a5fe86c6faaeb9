import { measures } from '../../measures/registry.ts';
import { readOwnSet, type ReadOwnSet } from '../../reference/own-set.ts';
import { ownSetSchema } from '../../reference/own-set-schema.ts';

/** The schema of a set of reference values of one's own, over the measures that there are. */
export const referenceSchema = () => ownSetSchema(measures);

export function readReference(json: string): ReadOwnSet {
  return readOwnSet(json, measures);
}
