import type { DicomImage } from './dicom-image.ts';
import type { GreyLevels } from './dicom-levels.ts';
import type { Samples } from './frame-decoder.ts';

/**
 * Stored values to shades, 0 black to 255 white. Without a window or table in the file the darkest value becomes black and the
 * brightest white. MONOCHROME1 is stored with its highest value black and is turned round (PS3.3 C.7.6.3.1.2).
 */
export function greyShades({ values, shift }: Samples, image: DicomImage, levels: GreyLevels): Uint8Array {
  const stored = storedValue(image, shift);
  const shade = levels.shade ?? stretch(values, stored, levels);
  const inverted = image.photometric === 'MONOCHROME1';
  const shadeOf = (raw: number): number => {
    const share = shade(levels.modality(stored(raw)));
    const grey = Math.round(255 * Math.min(1, Math.max(0, share)));
    return inverted ? 255 - grey : grey;
  };
  const shades = new Uint8Array(image.width * image.height);
  if (image.bitsAllocated === 32) {
    for (let i = 0; i < shades.length; i++) shades[i] = shadeOf(values[i] ?? 0);
    return shades;
  }
  // A table of all values that occur is far quicker than the arithmetic for each pixel.
  const table = new Int16Array(65536).fill(-1);
  for (let i = 0; i < shades.length; i++) {
    const raw = values[i] ?? 0;
    let known = table[raw] ?? 0;
    if (known < 0) {
      known = shadeOf(raw);
      table[raw] = known;
    }
    shades[i] = known;
  }
  return shades;
}

/** Cuts the stored bits out of a word (overlays may lie above them) and gives them their sign (PS3.5 8.1.1). */
function storedValue(image: DicomImage, shift: number | null): (raw: number) => number {
  const size = 2 ** image.bitsStored;
  if (shift === null && !image.signed) return (raw) => Math.min(raw, size - 1);
  const unit = 2 ** (shift ?? 0);
  return (raw) => {
    const bits = Math.floor(raw / unit) % size;
    return image.signed && bits >= size / 2 ? bits - size : bits;
  };
}

function stretch(
  values: Samples['values'],
  stored: (raw: number) => number,
  { modality, padding }: GreyLevels,
): (value: number) => number {
  let least = Infinity;
  let most = -Infinity;
  for (const raw of values) {
    const value = stored(raw);
    if (padding && value >= padding[0] && value <= padding[1]) continue;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const ends = [modality(least), modality(most)];
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  return high > low ? (value) => (value - low) / (high - low) : () => 0;
}
