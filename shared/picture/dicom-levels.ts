import type { DataSet } from 'dicom-parser';
import { itemsOf, numbersOf, textOf, wordsOf } from './dicom-elements.ts';
import type { DicomImage } from './dicom-image.ts';

/** How stored values become shades (Modality LUT and VOI LUT Modules, PS3.3 C.11.1 and C.11.2). */
export interface GreyLevels {
  /** Stored value to the modality's own unit. */
  readonly modality: (stored: number) => number;
  /** From that unit to a share of white, 0 to 1; null where the file leaves it open. */
  readonly shade: ((value: number) => number) | null;
  /** Stored values, both ends included, that stand for 'outside the picture' and must not stretch the range of grey. */
  readonly padding: readonly [number, number] | null;
}

export function levelsOf(dataSet: DataSet, image: DicomImage): GreyLevels {
  return {
    modality: modalityOf(dataSet),
    shade: windowOf(dataSet) ?? voiTable(dataSet),
    padding: paddingOf(dataSet, image),
  };
}

function modalityOf(dataSet: DataSet): (stored: number) => number {
  const table = tableOf(itemsOf(dataSet, 'x00283000')[0]);
  if (table) return table.at;
  const slope = numbersOf(dataSet, 'x00281053')?.[0] || 1;
  const intercept = numbersOf(dataSet, 'x00281052')?.[0] ?? 0;
  return (stored) => stored * slope + intercept;
}

/** The first window of the file, by its function (PS3.3 C.11.2.1.2 and C.11.2.1.3). */
function windowOf(dataSet: DataSet): GreyLevels['shade'] {
  const centre = numbersOf(dataSet, 'x00281050')?.[0];
  const width = numbersOf(dataSet, 'x00281051')?.[0];
  if (centre === undefined || width === undefined || !(width > 0)) return null;
  switch (textOf(dataSet, 'x00281056')) {
    case 'SIGMOID':
      return (value) => 1 / (1 + Math.exp((-4 * (value - centre)) / width));
    case 'LINEAR_EXACT':
      return (value) => (value - centre) / width + 0.5;
    default:
      return width <= 1
        ? (value) => (value > centre - 0.5 ? 1 : 0)
        : (value) => (value - (centre - 0.5)) / (width - 1) + 0.5;
  }
}

function voiTable(dataSet: DataSet): GreyLevels['shade'] {
  const table = tableOf(itemsOf(dataSet, 'x00283010')[0]);
  return table && ((value) => table.at(value) / table.most);
}

/** A lookup table: Descriptor (0028,3002) is length (0 for 65536), first value, bits; Data (0028,3006). */
function tableOf(item: DataSet | undefined): { at: (value: number) => number; most: number } | null {
  const descriptor = item && wordsOf(item, 'x00283002');
  const data = item && wordsOf(item, 'x00283006');
  const [length, first, bits] = descriptor ?? [];
  if (!data?.length || length === undefined || first === undefined || !bits) return null;
  // Eight-bit tables may lie two entries to a word.
  const entries = bits <= 8 && data.length < (length || 65536) ? data.flatMap((word) => [word & 255, word >> 8]) : data;
  const from = first > 32767 ? first - 65536 : first;
  return {
    at: (value) => entries[Math.min(Math.max(Math.round(value) - from, 0), entries.length - 1)] ?? 0,
    most: 2 ** bits - 1,
  };
}

/** Pixel Padding Value (0028,0120) and its Range Limit (0028,0121), PS3.3 C.7.5.1.1.2. */
function paddingOf(dataSet: DataSet, image: DicomImage): GreyLevels['padding'] {
  const read = (tag: string): number | null => {
    const word = wordsOf(dataSet, tag)?.[0];
    return word === undefined ? null : image.signed && word > 32767 ? word - 65536 : word;
  };
  const one = read('x00280120');
  if (one === null) return null;
  const other = read('x00280121') ?? one;
  return [Math.min(one, other), Math.max(one, other)];
}
