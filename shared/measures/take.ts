import type { FrameLack } from '../geometry/foot-axes.ts';
import type { FootInput } from '../geometry/foot-input.ts';
import type { FootSize } from '../geometry/foot-size.ts';
import { footFrame, type FilmFrame, type Frame } from '../geometry/frame.ts';
import type { XY } from '../geometry/vector.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';
import type { Taken } from './measure.ts';
import type { Measure } from './registry.ts';
import { measuresIn } from './registry.ts';
import { TakenValues, type Value, type Values } from './values.ts';

export { usualSpread, type PlacingSpread, type StoredScale } from './film-input.ts';
export type { Value, Values } from './values.ts';

export interface Taking {
  /** mm/px; null without a scale, or with one that counts as none. */
  readonly scale: number | null;
  /** The size by which the scale counts as none: no foot has it. Null where nothing is odd. */
  readonly oddSize: FootSize | null;
  readonly frame: FilmFrame | null;
  readonly lack: FrameLack | null;
  readonly values: Values;
}

const nothing: Values = new Map();

/**
 * Every measure that the input supports. Pure. The frame that is given asks for the input again now and then, so that nobody has to
 * keep it: it has to be the same each time.
 */
export function takeMeasures(given: () => FootInput): Taking {
  const { view, scale, oddSize, frame, lack } = footFrame(given);
  return { scale, oddSize, frame, lack, values: frame ? valuesIn(view, frame) : nothing };
}

/** Every measure of a view that the frame supports; lengths only where it has a scale. */
export function valuesIn(view: View, frame: Frame): Values {
  const values = new TakenValues(view);
  const measures = measuresIn(view);
  frame.graph.scratch(() => {
    for (let place = 0; place < measures.length; place++) {
      const measure = measures[place] as Measure;
      const taken = takenIn(frame, measure);
      const sd = taken ? frame.graph.deviation(taken.value) : NaN;
      if (taken && Number.isFinite(sd)) values.put(place, taken.value.value, sd, taken.axis);
    }
  });
  return values;
}

/** One measure of a frame of its view; null where the frame does not support it. */
export function valueIn(frame: Frame, measure: Measure): Value | null {
  return frame.graph.scratch(() => {
    const taken = takenIn(frame, measure);
    if (!taken) return null;
    const { value } = taken.value;
    const sd = frame.graph.deviation(taken.value);
    if (!Number.isFinite(sd)) return null;
    const { unit } = measure;
    return taken.axis ? { measure, value, unit, sd, axis: taken.axis } : { measure, value, unit, sd };
  });
}

/**
 * By how much a measure changes for each mm (without a scale: each pixel) that a placing is moved along X and Y of the foot;
 * null where the frame does not support it.
 */
export function changesByPlacing(frame: FilmFrame, measure: Measure): ReadonlyMap<LandmarkName, XY> | null {
  return frame.graph.scratch(() => {
    const taken = takenIn(frame, measure);
    return taken && frame.byPlacing(taken.value);
  });
}

function takenIn(frame: Frame, measure: Measure): Taken | null {
  return measure.kind === 'length' && !frame.scale ? null : measure.of(frame);
}
