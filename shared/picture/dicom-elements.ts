import dicomParser, { type DataSet } from 'dicom-parser';

/** Room for 64 decimal strings of 16 characters, the longest that PS3.5 6.2 allows. */
const longestText = 1024;
/** Two bytes for each entry of the largest lookup table. */
const mostWordBytes = 2 ** 17;

/**
 * The trimmed text of an element; null where it is absent, empty, or runs past the end of the file. One that is longer than any that
 * is read here is cut, and ends with a mark that makes it no number.
 */
export function textOf(dataSet: DataSet, tag: string): string | null {
  const element = dataSet.elements[tag];
  if (!element) return null;
  try {
    const cut = element.length > longestText && element.dataOffset + element.length <= dataSet.byteArray.length;
    const text = cut
      ? `${dicomParser.readFixedString(dataSet.byteArray, element.dataOffset, longestText)}…`
      : dataSet.string(tag);
    return text?.replaceAll('\0', '').trim() || null;
  } catch {
    return null;
  }
}

/** A whole number stored in two bytes (VR US); null where it is absent or cut off. */
export function wholeOf(dataSet: DataSet, tag: string): number | null {
  try {
    return dataSet.uint16(tag) ?? null;
  } catch {
    return null;
  }
}

/** The data sets of a sequence's items; none where it is absent. */
export function itemsOf(dataSet: DataSet, tag: string): readonly DataSet[] {
  return (dataSet.elements[tag]?.items ?? []).flatMap(({ dataSet: item }) => (item ? [item] : []));
}

/** Decimal or integer string values (VR DS, IS); null where the element is absent or any value is no number. */
export function numbersOf(dataSet: DataSet, tag: string): readonly number[] | null {
  const values = textOf(dataSet, tag)
    ?.split('\\')
    .map((part) => (part.trim() === '' ? NaN : Number(part)));
  return values && values.every(Number.isFinite) ? values : null;
}

/** All two-byte values of an element (VR US, SS, OW), in the file's byte order; null where it is absent, cut off, or longer than any table. */
export function wordsOf(dataSet: DataSet, tag: string): readonly number[] | null {
  const element = dataSet.elements[tag];
  if (!element || element.length > mostWordBytes || element.dataOffset + element.length > dataSet.byteArray.length)
    return null;
  return Array.from({ length: element.length >> 1 }, (_, i) =>
    dataSet.byteArrayParser.readUint16(dataSet.byteArray, element.dataOffset + 2 * i),
  );
}
