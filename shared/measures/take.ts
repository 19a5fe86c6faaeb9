import { footFrame, plainScale, type Frame, type FrameLack, type ScaleInput, type Spot } from '../geometry/frame.ts';
import { outside, sayRange } from '../notation/in-range.ts';
import type { View } from '../notation/landmarks.ts';
import { pixelSize, placingSpread } from '../notation/ranges.ts';
import type { Range } from '../notation/signature.ts';
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

/** How far each may be set. */
export const spreadRanges: Readonly<Record<keyof PlacingSpread, Range>> = {
  mm: { low: 0, high: 20, unit: 'mm' },
  px: placingSpread,
};

/** What a picture's own file says of its scale: mm/px and in words how it knows, or why it says none. */
export type StoredScale = { readonly mmPerPx: number; readonly words: string } | { readonly lack: string };

const sound = new WeakMap<StoredScale, StoredScale>();

/**
 * A stored scale as far as it counts: a number that is out of the range of scales, or none at all, is no scale, and why is said
 * in its place. The same object where nothing is wrong, and for the same one each time.
 */
export function soundScale(stored: StoredScale): StoredScale {
  if (!('mmPerPx' in stored)) return stored;
  const side = outside(stored.mmPerPx, pixelSize);
  if (side === null) return stored;
  let lacking = sound.get(stored);
  if (!lacking) {
    const size = side === 'below' ? `smaller than ${pixelSize.low} mm` : `larger than ${pixelSize.high} mm`;
    lacking = {
      lack: `By what its own file says a pixel of the picture would be ${size}; scales go from ${sayRange(pixelSize)}, so this is none.`,
    };
    sound.set(stored, lacking);
  }
  return lacking;
}

export interface Taking {
  /** mm/px; null without a scale. */
  readonly scale: number | null;
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
  return { scale, frame, lack, values: frame ? valuesIn(film.view, frame) : nothing };
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

/** Whatever a scale comes from, one out of the range of scales is none: ends of a marker may be moved together too. */
function scaleInput(film: Film, stored: StoredScale | null): ScaleInput | null {
  const input = givenScale(film, stored);
  const size = plainScale(input, 1);
  return size === null || outside(size, pixelSize) !== null ? null : input;
}

function givenScale(film: Film, stored: StoredScale | null): ScaleInput | null {
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
