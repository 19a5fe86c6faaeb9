import type { DataSet } from 'dicom-parser';
import { textOf } from './dicom-elements.ts';

/** Of the limb, as it is the animal's own. */
export type Laterality = 'left' | 'right';

const sides: Readonly<Record<string, Laterality>> = { L: 'left', R: 'right' };

/** Image Laterality (0020,0062), else Laterality of the series (0020,0060), PS3.3 C.7.3.1 and C.8.11.1; null where it says neither side. */
export function sideOf(dataSet: DataSet): Laterality | null {
  const image = textOf(dataSet, 'x00200062')?.trim();
  const said = image || textOf(dataSet, 'x00200060')?.trim();
  return (said && sides[said.toUpperCase()]) || null;
}
