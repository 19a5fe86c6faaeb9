import { AMONG_EQUALS } from './among-equals.ts';
import { counts } from '../findings/limits/fitting-units.ts';
import type { MeasureName } from '../measures/names.ts';
import { findMeasure } from '../measures/registry.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import type { Expectation } from '../record/schema.ts';
import type { StudiedReading } from '../trim/study.ts';

/** A value that is read off a film and written down with `expect`, held against the key's. In the measure's unit. */
export interface MarkedValue {
  readonly measure: MeasureName;
  readonly unit: MeasureUnit;
  /** Null where the key neither states it nor can compute it: on such a film nobody can read it. */
  readonly key: number | null;
  /** Null where the key asks for it and the student has not written it. */
  readonly student: number | null;
  /** Null where the key has no value. */
  readonly tolerance: number | null;
  readonly agrees: boolean;
}

/**
 * What a student has read, against what the key states and, where it states nothing, against what its places give. What the key states is
 * asked for; its `+-` is what is allowed, and without one what two good placings of the film differ by. A `+-` of the student's own
 * widens nothing. In the order of the key, then of the student.
 */
export function markedValues(
  key: readonly Expectation[],
  { taking }: Pick<StudiedReading, 'taking'>,
  student: readonly Expectation[],
): readonly MarkedValue[] {
  const [asked, read] = [stated(key), stated(student)];
  return [...new Set([...asked.keys(), ...read.keys()])].flatMap((name) => {
    const measure = findMeasure(name);
    if (!measure) return [];
    const computed = taking.values.get(measure.name);
    const said = asked.get(name);
    const right = said?.quantity.base ?? computed?.value ?? null;
    const found = read.get(name)?.quantity.base ?? null;
    const allowed = said?.tolerance?.base ?? (computed ? AMONG_EQUALS * computed.sd : plainAllowance);
    return [
      {
        measure: measure.name,
        unit: measure.unit,
        key: right,
        student: found,
        tolerance: right === null ? null : allowed,
        agrees: right !== null && found !== null && Math.abs(found - right) <= allowed + rounding,
      },
    ];
  });
}

/** Allowed of a value that the key states without `+-` and without the places to compute it: one of its unit. A judgement of ours. */
const plainAllowance = 1;

/** 5.6 less 5 is a little more than 0.6 in the last bit. */
const rounding = 1e-9;

/** By the name of the measure, the first of each; what cannot be a value of it is told elsewhere and counts for nothing. */
function stated(expects: readonly Expectation[]): ReadonlyMap<string, Expectation> {
  const found = new Map<string, Expectation>();
  for (const one of expects) {
    const measure = findMeasure(one.measure);
    if (measure && counts(measure, one.quantity) && !found.has(measure.name)) found.set(measure.name, one);
  }
  return found;
}
