import { footFrame, plainScale, type Frame, type FrameLack, type ScaleInput, type Spot } from '../geometry/frame.ts';
import type { View } from '../notation/landmarks.ts';
import type { Film, Reading } from '../record/schema.ts';
import type { Measure, Taken } from './measure.ts';
import { measuresIn } from './registry.ts';
import { TakenValues, type Value, type Values } from './values.ts';

export type { Value, Values } from './values.ts';

/** The standard deviation of a placing where neither its line nor its reader gives one. */
export interface PlacingSpread {
  /** With a scale, mm. */
  readonly mm: number;
  /** Without one, px. */
  readonly px: number;
}

export const usualSpread: PlacingSpread = { mm: 0.5, px: 5 };

/** What a picture's own file says of its scale: mm/px and in words how it knows, or why it says none. */
export type StoredScale = { readonly mmPerPx: number; readonly words: string } | { readonly lack: string };

export interface Taking {
  /** mm/px; null without a scale. */
  readonly scale: number | null;
  /** Standard deviation, px, of a place whose line gives none: the reader's own, else what is set. */
  readonly usualSd: number;
  readonly frame: Frame | null;
  readonly lack: FrameLack | null;
  readonly values: Values;
}

const nothing: Values = new Map();

/** Every measure that one reading of a picture supports. Pure. */
export function takeMeasures(
  film: Film,
  reading: Reading,
  spread: PlacingSpread = usualSpread,
  stored: StoredScale | null = null,
): Taking {
  const input = scaleInput(film, stored);
  const magnify = film.magnify?.value ?? 1;
  const scale = plainScale(input, magnify);
  const usual = reading.spread ?? (scale === null ? spread.px : spread.mm / scale);
  const spot = ({ x, y }: { x: number; y: number }): Spot => ({ x, y, sd: usual });
  const { frame, lack } = footFrame(film.view, () => ({
    placed: reading.placings.map(({ name, x, y, spread: sd }) => ({ name, x, y, sd: sd ?? usual })),
    ground: film.ground && [spot(film.ground.from), spot(film.ground.to)],
    scale: input?.kind === 'marker' ? { ...input, from: spot(input.from), to: spot(input.to) } : input,
    magnify,
  }));
  return { scale, usualSd: usual, frame, lack, values: frame ? valuesIn(film.view, frame) : nothing };
}

/** Every measure of a view that the frame supports; lengths only where it has a scale. */
export function valuesIn(view: View, frame: Frame): Values {
  const values = new TakenValues(view);
  const measures = measuresIn(view);
  frame.sheet.scratch(() => {
    for (let place = 0; place < measures.length; place++) {
      const measure = measures[place] as Measure;
      const taken = takenIn(frame, measure);
      const sd = taken ? frame.sheet.deviation(taken.value) : NaN;
      if (taken && Number.isFinite(sd)) values.put(place, taken.value.value, sd, taken.axis);
    }
  });
  return values;
}

/** One measure of a frame of its view; null where the frame does not support it. */
export function valueIn(frame: Frame, measure: Measure): Value | null {
  return frame.sheet.scratch(() => {
    const taken = takenIn(frame, measure);
    if (!taken) return null;
    const { value } = taken.value;
    const sd = frame.sheet.deviation(taken.value);
    if (!Number.isFinite(sd)) return null;
    const { unit } = measure;
    return taken.axis ? { measure, value, unit, sd, axis: taken.axis } : { measure, value, unit, sd };
  });
}

function takenIn(frame: Frame, measure: Measure): Taken | null {
  return measure.kind === 'length' && !frame.scale ? null : measure.of(frame);
}

function scaleInput(film: Film, stored: StoredScale | null): ScaleInput | null {
  switch (film.scale?.kind) {
    case 'dicom':
      return stored && 'mmPerPx' in stored ? { kind: 'pixel', mmPerPx: stored.mmPerPx } : null;
    case 'pixel':
      return { kind: 'pixel', mmPerPx: film.scale.mmPerPx };
    case 'marker': {
      const { from, to } = film.scale.marker;
      return { kind: 'marker', lengthMm: film.scale.length.base, from: { ...from, sd: 0 }, to: { ...to, sd: 0 } };
    }
    default:
      return null;
  }
}
