import type { BoneScaleInput, FootInput, PlacedLandmark, ScaleInput } from '../geometry/foot-input.ts';
import { placingSpread } from '../notation/ranges.ts';
import type { Range } from '../notation/signature.ts';
import type { Film, Placing, Reading } from '../record/schema.ts';
import { soundInput, type StoredScale } from './sound-scale.ts';

export type { StoredScale } from './sound-scale.ts';

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

/** What one reading of a film is measured from; the one place where a text's record becomes numbers to measure. */
export function filmInput(
  film: Film,
  reading: Reading,
  spread: PlacingSpread = usualSpread,
  stored: StoredScale | null = null,
  bone: BoneScaleInput | null = null,
  isShod = false,
): FootInput {
  const landmarks = reading.placings.map(placedLandmark);
  return {
    view: film.view,
    landmarks,
    ground: film.ground && [film.ground.from, film.ground.to],
    bearing: film.bearing && [film.bearing.from, film.bearing.to],
    isShod,
    scale: soundInput(scaleInput(film, stored, bone), landmarks),
    magnify: film.magnify?.value ?? 1,
    spread: reading.spread === null ? spread : { mm: null, px: reading.spread },
  };
}

/** A placing of the text as what is measured from. */
export function placedLandmark({ name, x, y, spread, followed }: Placing): PlacedLandmark {
  return followed ? { name, x, y, spread, followed: true } : { name, x, y, spread };
}

/** Whether the header of the picture is looked at: for its scale, and for the side of which it says it is. */
export function looksIntoPicture({ scale, path }: Pick<Film, 'scale' | 'path'>): boolean {
  return scale?.kind === 'dicom' || /\.(?:dcm|dicom)$/i.test(path.text);
}

function scaleInput({ scale }: Film, stored: StoredScale | null, bone: BoneScaleInput | null): ScaleInput | null {
  switch (scale?.kind) {
    case 'bone':
      return bone;
    case 'dicom':
      return stored && 'mmPerPx' in stored ? { kind: 'pixel', mmPerPx: stored.mmPerPx } : null;
    case 'pixel':
      return { kind: 'pixel', mmPerPx: scale.mmPerPx };
    case 'marker':
      return { kind: 'marker', mm: scale.length.base, ends: [scale.marker.from, scale.marker.to] };
    default:
      return null;
  }
}
