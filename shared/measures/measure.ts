import type { LandmarkName, View } from '../notation/landmarks.ts';
import type { Frame } from '../geometry/frame.ts';
import type { Point } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';

export type MeasureKind = 'angle' | 'length' | 'ratio';
export type MeasureUnit = 'deg' | 'mm' | '%' | '1';

export interface Measure {
  readonly name: string;
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
  /** Whether a hand with a tape or a gauge can take it on the hoof. */
  readonly byHand: boolean;
  /** The value in its unit; null where its landmarks are not all placed or the geometry gives none. */
  of(frame: Frame): Taken | null;
}

export interface Taken {
  readonly value: Real;
  /** Set where a shorter axis stood in for a missing landmark. */
  readonly axis?: 'short';
}

type Places<N extends LandmarkName> = Readonly<Record<N, Point>>;

interface Formula<N extends LandmarkName> {
  readonly needs: readonly N[];
  /** Plain arithmetic on the places, which it does not keep. */
  readonly of: (places: Places<N>) => Real | null;
}

interface Description {
  readonly words: string;
  readonly alias?: string;
  readonly doc: string;
  readonly formula: string;
  readonly byHand?: true;
}

const kinds = { deg: 'angle', mm: 'length', '%': 'ratio', '1': 'ratio' } as const;

type Define = <N extends LandmarkName, S extends LandmarkName = never>(
  family: string,
  name: string,
  unit: MeasureUnit,
  description: Description,
  formula: Formula<N>,
  short?: Formula<S>,
) => Measure;

/** Makes measures of one view from their formulas; `short` is the formula where the full one lacks a landmark. */
function measuresOf(view: View): Define {
  return (family, name, unit, description, formula, short) => {
    const full = evaluator(formula);
    const stopgap = short && evaluator(short);
    return {
      name,
      family,
      unit,
      view,
      kind: kinds[unit],
      ...description,
      byHand: description.byHand === true,
      needs: formula.needs,
      of(frame) {
        const value = full(frame);
        if (value) return { value };
        const instead = stopgap?.(frame);
        return instead ? { value: instead, axis: 'short' } : null;
      },
    };
  };
}

export const lateral = measuresOf('lateral');
export const front = measuresOf('front');
export const solar = measuresOf('solar');

/** The places of a formula stand in one object that is filled anew each time: to make one each time takes longer than to measure. */
function evaluator<N extends LandmarkName>({ needs, of }: Formula<N>): (frame: Frame) => Real | null {
  const places: Partial<Record<N, Point>> = {};
  return (frame) => {
    for (const name of needs) {
      const point = frame.at(name);
      if (!point) return null;
      places[name] = point;
    }
    const value = of(places as Places<N>);
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
