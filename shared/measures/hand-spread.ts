import { t } from '../language/words.ts';
import type { MeasureUnit } from './unit.ts';

/**
 * How well a hand measures, one standard deviation. Round the coronet of five limbs a tape varied by 2 mm (J Equine Vet
 * Sci 2022;115:104028, its abstract), which is only a hint for other lengths. 2 degrees for a gauge are a judgement of
 * ours. A share is made of two lengths: 3 per cent are what 2 mm come to in a foot 70 to 130 mm long.
 */
const byUnit: Readonly<Record<MeasureUnit, number | null>> = { mm: 2, deg: 2, '%': 3, '1': null };

/** Short lengths that a gauge or ultrasound takes, mm: a judgement of ours. */
const short: Readonly<Record<string, number>> = {
  'groove-depth.apex': 1,
  'groove-depth.heel': 1,
  'white-line-width': 0.5,
  'sole-ultrasound': 1,
};

/** In the measure's unit; null where nothing can be said. */
export function handSpread({ name, unit }: { readonly name: string; readonly unit: MeasureUnit }): number | null {
  return short[name] ?? byUnit[unit];
}

/** What the faces say of it, in one sentence. */
export const handSpreadWords = (): string =>
  t(
    'By hand, one standard deviation is taken to be 2 mm for a tape (a tape round the coronet, J Equine Vet Sci 2022;115:104028; for other lengths a hint only), 2° for a gauge, 1 mm for a groove or ultrasound, 0.5 mm for the white line and 3 % for a share (judgements of ours).',
  );

/** Of a share of two lengths that a hand took: per cent. */
export function shareSpread(part: number, whole: number): number {
  const sd = byUnit.mm ?? 0;
  return (100 / whole) * Math.hypot(sd, (part / whole) * sd);
}
