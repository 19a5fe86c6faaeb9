import dicomParser, { type DataSet } from 'dicom-parser';
import { inflate } from './bounded-inflate.ts';
import { textOf } from './dicom-elements.ts';
import { joined } from './joined.ts';
import { Unreadable } from './unreadable.ts';

/** A DICOM file read as far as its pixel data, which stay where they are. */
export interface DicomFile {
  readonly dataSet: DataSet;
  /** Transfer Syntax UID (0002,0010). */
  readonly syntax: string;
  /** The bytes that the element offsets point into: the file's own, or the inflated ones. */
  readonly bytes: Uint8Array;
}

/** Inflated data sets beyond this are refused: twice the largest film at 16 bits. */
const mostInflated = 2 ** 28;
/** @throws Unreadable */
export function openDicom(bytes: Uint8Array): DicomFile {
  let dataSet: DataSet;
  try {
    // Stopping at the pixel data keeps this fast for a large film, and lets the header of a file be read that was cut short in its picture.
    dataSet = dicomParser.parseDicom(bytes, {
      untilTag: 'x7fe00010',
      inflater: inflated as (bytes: Uint8Array, from: number) => void,
    });
  } catch (cause) {
    if (cause instanceof Unreadable) throw cause;
    const partial = (cause as { dataSet?: DataSet } | null)?.dataSet;
    if (!partial?.elements?.['x00280010'])
      throw new Unreadable('The DICOM file is damaged or cut short: its header cannot be read.');
    dataSet = partial;
  }
  return { dataSet, syntax: textOf(dataSet, 'x00020010') ?? '', bytes: dataSet.byteArray };
}

/** Deflated Explicit VR Little Endian (PS3.5 A.5): the bytes before `from` as they are, then what the rest inflates to. A damaged rest may still hold the header. */
function inflated(bytes: Uint8Array, from: number): Uint8Array {
  const rest = inflate(
    'bare',
    bytes.subarray(from),
    mostInflated,
    'The compressed DICOM file unpacks to more than any radiograph holds; it is probably damaged.',
  );
  return joined([bytes.subarray(0, from), rest]);
}
