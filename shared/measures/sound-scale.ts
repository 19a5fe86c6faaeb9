import { t } from '../language/words.ts';
import { once } from '../notation/once.ts';
import { plainScale, type PlacedLandmark, type ScaleInput } from '../geometry/foot-input.ts';
import { outside, sayRange } from '../notation/in-range.ts';
import { pixelSize } from '../notation/ranges.ts';

/**
 * What a picture's own file says: mm/px and in words how it knows, or why it says none; and of which side it says the limb is.
 * `overstates`: where the number may hold at the detector and not at the foot, by how many per cent lengths may then be too long.
 */
export type StoredScale = (
  | { readonly mmPerPx: number; readonly words: string; readonly overstates?: readonly [number, number] }
  | { readonly lack: string }
) & { readonly side?: 'left' | 'right' };

/** Whatever a scale comes from, one out of the range of scales is none: the ends of a marker may lie too near each other too. */
export function soundInput(scale: ScaleInput | null, landmarks: readonly PlacedLandmark[] = []): ScaleInput | null {
  const size = plainScale({ scale, magnify: 1, landmarks });
  // The bones may be placed later; then it is one.
  if (size === null) return scale?.kind === 'bone' ? scale : null;
  return outside(size, pixelSize) === null ? scale : null;
}

/**
 * A stored scale as far as it counts: a number that is out of the range of scales, or none at all, is no scale, and why is said
 * in its place. The same object where nothing is wrong, and for the same one each time.
 */
export function soundScale(stored: StoredScale): StoredScale {
  if (!('mmPerPx' in stored)) return stored;
  const side = outside(stored.mmPerPx, pixelSize);
  return side === null ? stored : noScale(stored);
}

const noScale = once((stored: Extract<StoredScale, { mmPerPx: number }>): StoredScale => {
  const size =
    stored.mmPerPx < pixelSize.low ? t('smaller than {0} mm', pixelSize.low) : t('larger than {0} mm', pixelSize.high);
  return {
    lack: t(
      'By what its own file says a pixel of the picture would be {0}; scales go from {1}, so this is none.',
      size,
      sayRange(pixelSize),
    ),
    ...(stored.side && { side: stored.side }),
  };
});
