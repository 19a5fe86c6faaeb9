import type { LandmarkName, View } from '../notation/landmarks.ts';
import { tapedValue } from '../notation/ranges.ts';
import type { Range } from '../notation/signature.ts';
import type { Frame } from '../geometry/frame.ts';
import { onPlane, type Plane } from '../geometry/planes.ts';
import type { Point } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import type { MeasureUnit } from './unit.ts';

export type MeasureKind = 'angle' | 'length' | 'ratio';

/** What is known of a measure, and how it is taken. `Measure`, of which the name is one of those in use, stands in `registry.ts`. */
export interface MeasureOf<Name extends string> {
  readonly name: Name;
  /** The trade's words for it, as shown to people. */
  readonly words: string;
  /** Another name that a file may use, such as plantar-angle on a hind foot. */
  readonly alias?: string;
  readonly family: string;
  readonly view: View;
  readonly kind: MeasureKind;
  readonly unit: MeasureUnit;
  readonly doc: string;
  /** How it is computed, as it stands in the docs. */
  readonly formula: string;
  readonly needs: readonly LandmarkName[];
  /** The plane that it is measured to. Where a film does not show that plane, it gives no value. */
  readonly plane: Plane;
  /** How low and how high it may be where a hand takes it on the hoof, with a tape or a gauge; null where none can. */
  readonly byHand: Range | null;
  /** The value in its unit; null where its landmarks are not all placed or the geometry gives none. */
  of(frame: Frame): Taken | null;
  /**
   * What a cut leaves of it, from the frame before the cut and the degrees that the foot turns; null where it is simply measured
   * on the foot that stands on its new line.
   */
  readonly afterCut: ((before: Frame, turned: Real) => Real | null) | null;
}

export interface Taken {
  readonly value: Real;
  /** Set where a shorter axis stood in for a missing landmark. */
  readonly axis?: 'short';
}

type NeededPoints<N extends LandmarkName> = Readonly<Record<N, Point>>;

interface Formula<N extends LandmarkName> {
  readonly needs: readonly N[];
  /** Plain arithmetic on the places, which it does not keep; `frame` for what is no landmark. */
  readonly of: (places: NeededPoints<N>, frame: Frame) => Real | null;
}

interface PlacedFormula<N extends LandmarkName> extends Formula<N> {
  readonly plane: Plane;
}

/** Nobody defines a lateral measure without having thought of what a cut does to it. */
interface LateralFormula<N extends LandmarkName> extends PlacedFormula<N> {
  /**
   * `measured`: anew, on the foot that stands on its new line; `unchanged`: no cut touches it. Else from the places before the cut
   * and the degrees of the turn.
   */
  readonly afterCut: 'measured' | 'unchanged' | ((places: NeededPoints<N>, turned: Real) => Real | null);
}

interface Description {
  readonly words: string;
  readonly alias?: string;
  readonly doc: string;
  readonly formula: string;
  /**
   * Lowest and highest in its unit, where a hand can take it: no judgement of the foot, what lies beyond is a slip of writing. Of one
   * that may have either sign the range of its unit holds.
   */
  readonly byHand?: readonly [low: number, high: number] | 'signed';
}

const inNotation = { deg: 'angle', mm: 'length', '%': 'share', '1': 'plain' } as const;
const kinds = { deg: 'angle', mm: 'length', '%': 'ratio', '1': 'ratio' } as const;

type Define<F> = <const Name extends string, N extends LandmarkName>(
  family: string,
  name: Name,
  unit: MeasureUnit,
  description: Description,
  formula: Formula<N> & F,
) => MeasureOf<Name>;

/** A measure of the lateral view; `short` is the formula where the full one lacks a landmark. */
export function lateral<const Name extends string, N extends LandmarkName, S extends LandmarkName = never>(
  family: string,
  name: Name,
  unit: MeasureUnit,
  description: Description,
  formula: LateralFormula<N>,
  short?: Formula<S>,
): MeasureOf<Name> & { readonly view: 'lateral' } {
  const { plane, needs, afterCut } = formula;
  const full = taker(plane, needs, formula.of);
  const stopgap = short && taker(plane, short.needs, short.of);
  return {
    ...described(family, name, unit, description),
    view: 'lateral',
    needs,
    plane,
    of(frame) {
      const value = full(frame);
      if (value) return { value };
      const instead = stopgap?.(frame);
      return instead ? { value: instead, axis: 'short' } : null;
    },
    afterCut: afterCut === 'measured' ? null : afterCut === 'unchanged' ? full : evaluator(plane, needs, afterCut),
  };
}

/** Makes measures of a view in which no cut is predicted. */
function measuresOf<F extends { readonly plane?: Plane }>(view: Exclude<View, 'lateral'>): Define<F> {
  return (family, name, unit, description, formula) => {
    // Seen from below a foot stands on nothing.
    const { plane = 'none', needs } = formula;
    const full = taker(plane, needs, formula.of);
    return {
      ...described(family, name, unit, description),
      view,
      needs,
      plane,
      of(frame) {
        const value = full(frame);
        return value && { value };
      },
      afterCut: null,
    };
  };
}

export const front = measuresOf<{ readonly plane: Plane }>('front');
export const solar = measuresOf<object>('solar');

function described<Name extends string>(family: string, name: Name, unit: MeasureUnit, description: Description) {
  return { name, family, unit, kind: kinds[unit], ...description, byHand: handRange(description.byHand, unit) };
}

function handRange(given: Description['byHand'], unit: MeasureUnit): Range | null {
  if (given === undefined) return null;
  return given === 'signed' ? tapedValue[inNotation[unit]] : { low: given[0], high: given[1], unit };
}

function taker<N extends LandmarkName>(
  plane: Plane,
  needs: readonly N[],
  of: Formula<N>['of'],
): (frame: Frame) => Real | null {
  const taken = evaluator(plane, needs, of);
  return (frame) => taken(frame, frame);
}

/** The places of a formula stand in one object that is filled anew each time: to make one each time takes longer than to measure. */
function evaluator<N extends LandmarkName, Rest extends readonly unknown[]>(
  plane: Plane,
  needs: readonly N[],
  of: (places: NeededPoints<N>, ...rest: Rest) => Real | null,
): (frame: Frame, ...rest: Rest) => Real | null {
  const places: Partial<Record<N, Point>> = {};
  return (frame, ...rest) => {
    const seen = onPlane(frame, plane);
    if (!seen) return null;
    for (const name of needs) {
      const point = seen.at(name);
      if (!point) return null;
      places[name] = point;
    }
    const value = of(places as NeededPoints<N>, ...rest);
    return value && Number.isFinite(value.value) ? value : null;
  };
}

/** a - b in degrees, brought into (-180, 180]. */
export function turn(a: Real, b: Real): Real {
  const difference = a.minus(b);
  if (difference.value > 180) return difference.minus(360);
  if (difference.value <= -180) return difference.plus(360);
  return difference;
}
