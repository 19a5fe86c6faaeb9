import { spokenRows } from '../language/rows.ts';
import type { MeasureUnit } from './unit.ts';

/** What only a tape, a gauge or ultrasound gives: no landmark of a picture shows it. Written under `tape`. */
export interface HandMeasure {
  readonly name: string;
  /** The trade's words for it, as shown to people. */
  readonly words: string;
  readonly unit: MeasureUnit;
  readonly doc: string;
}

// prettier-ignore
export const handMeasures: readonly HandMeasure[] = spokenRows([
  { name: 'groove-depth.apex', unit: 'mm', words: 'collateral groove at the frog’s point', doc: 'Depth of the collateral groove beside the point of the frog, from a straight edge across the foot.' },
  { name: 'groove-depth.heel', unit: 'mm', words: 'collateral groove at the heel', doc: 'Depth of the collateral groove beside the frog’s base, from a straight edge across the heels.' },
  { name: 'white-line-width', unit: 'mm', words: 'width of the white line', doc: 'Width of the white line at the toe.' },
  { name: 'toe-height', unit: 'mm', words: 'toe height', doc: 'Height of the hairline at the toe above the ground, upright.' },
  { name: 'heel-toe-share', unit: '%', words: 'heel height as a share of toe height', doc: 'Heel height in per cent of the toe height. Where both are taken it follows from them.' },
  { name: 'coronet-girth', unit: 'mm', words: 'girth of the coronet', doc: 'Round the coronet with a tape, just below the hairline.' },
  { name: 'sole-ultrasound', unit: 'mm', words: 'sole by ultrasound', doc: 'Thickness of the sole under the tip of the bone, by ultrasound from the ground side.' },
], 'words', 'doc');

const byName = new Map(handMeasures.map((measure) => [measure.name, measure]));

export function findHandMeasure(name: string): HandMeasure | undefined {
  return byName.get(name);
}
