import { sayQuantity } from '../language/figures.ts';
import { findHandMeasure, handMeasures, type HandMeasure } from '../measures/by-hand.ts';
import { isBeyondHand } from '../measures/hand-range.ts';
import { handSpread, shareSpread } from '../measures/hand-spread.ts';
import { findMeasure, measures, type Measure } from '../measures/registry.ts';
import { unitsFor } from '../measures/written-units.ts';
import type { FootName } from '../notation/choices.ts';
import { dayNumber } from '../notation/dates.ts';
import { once } from '../notation/once.ts';
import type { Span } from '../notation/span.ts';
import type { Placed, Quantity, Tape, Visit } from '../record/schema.ts';

/** One value that a hand took, in the measure's unit. */
export interface TapedValue {
  readonly measure: Measure | HandMeasure;
  readonly value: number;
  /** One standard deviation, as `handSpread` has it. */
  readonly sd: number;
  /** As written; null for a share that follows from two heights. */
  readonly written: string | null;
  /** In the visit; of a share that follows, its tape's. */
  readonly at: Span;
}

/** A tape of a visit. */
export interface TapeTaken {
  readonly visit: Placed<Visit>;
  readonly foot: FootName;
  readonly date: string | null;
  readonly day: number | null;
  /** Of its header, from the first line of the visit. */
  readonly line: number;
  readonly values: readonly TapedValue[];
}

export interface HandSeries {
  readonly measure: Measure | HandMeasure;
  readonly points: readonly {
    readonly film: null;
    readonly visit: Placed<Visit>;
    readonly line: number;
    readonly date: string;
    readonly day: number;
    readonly value: number;
    readonly sd: number;
  }[];
}

/** The tapes of a foot that stand at a date, in the order of their days. */
export function tapesOfFoot(foot: FootName, visits: readonly Placed<Visit>[]): TapeTaken[] {
  return visits
    .flatMap((visit) => tapesOfVisit(visit))
    .filter((tape) => tape.foot === foot && tape.day !== null)
    .sort((a, b) => (a.day ?? 0) - (b.day ?? 0));
}

/** In the order of the text; a tape without a value that counts is none. */
export function tapesOfVisit(visit: Placed<Visit>): TapeTaken[] {
  const { date, tapes } = visit.is;
  const day = date === null ? null : dayNumber(date);
  return tapes.flatMap((tape) => {
    const values = valuesOf(tape);
    return values.length === 0 ? [] : [{ visit, foot: tape.foot, date, day, line: tape.line, values }];
  });
}

/** Once a tape: every rule that looks for what hands took asks for all tapes of all visits. */
const valuesOf = once(({ values, head }: Tape): readonly TapedValue[] => {
  const taken = values.flatMap(({ measure, quantity, at }) => valueOf(measure, quantity, at) ?? []);
  const of = (name: string): number | undefined => taken.find(({ measure }) => measure.name === name)?.value;
  const share = findHandMeasure('heel-toe-share');
  const [heel, toe] = [of('heel-height'), of('toe-height')];
  // Where both heights are taken the share follows from them.
  if (share && heel !== undefined && toe !== undefined && toe > 0 && of('heel-toe-share') === undefined)
    taken.push({ measure: share, value: (100 * heel) / toe, sd: shareSpread(heel, toe), written: null, at: head });
  return taken;
});

/** Null for what no hand can take, a unit that does not fit, and a number that no hoof has: each is told elsewhere. */
function valueOf(name: string, quantity: Quantity, at: Span): TapedValue | null {
  const known = findMeasure(name);
  if (known && (known.byHand === null || isBeyondHand(known, quantity))) return null;
  const measure = known ?? findHandMeasure(name);
  if (!measure || !unitsFor(measure).includes(quantity.unit)) return null;
  const sd = handSpread(measure);
  return sd === null ? null : { measure, value: quantity.base, sd, written: sayQuantity(quantity), at };
}

/** A series for each measure, in the order of the tables. */
export function handMeasuresOf(tapes: readonly TapeTaken[]): HandSeries[] {
  return [...measures, ...handMeasures].flatMap((measure) => {
    const points = tapes.flatMap(({ visit, line, date, day, values }) => {
      const found = values.find((one) => one.measure.name === measure.name);
      return found && date !== null && day !== null
        ? [{ film: null, visit, line, date, day, value: found.value, sd: found.sd }]
        : [];
    });
    return points.length === 0 ? [] : [{ measure, points }];
  });
}
