import { t } from '../language/words.ts';
import dicomParser, { type ByteArrayParser, type ByteStream, type DataSet, type Element } from 'dicom-parser';
import { inflate } from './bounded-inflate.ts';
import { textOf } from './dicom-elements.ts';
import { readWithin, type HeaderReader } from './header-reader.ts';
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
/** Bytes of a file in which the pixel data must begin for its header to be read alone. */
export const mostHeader = 2 ** 24;
/** The same of a deflated one, inflated: a kilobyte of the file can be a megabyte of these. */
const mostInflatedHeader = 2 ** 22;
/** Most headers are done within this; those that go on are read four times as far each time. */
const firstPrefix = 2 ** 16;

/**
 * Numbers (tags, lengths) that are read to walk a header, three to six for each element and item. A radiograph has some hundred
 * elements, a film of a thousand pictures some ten thousand. Each takes some two hundred bytes of memory, so the largest header
 * that is read takes some twenty million.
 */
const mostNumbers = 2 ** 18;
const tooMany = (): string =>
  t('The header of the DICOM file has more parts than that of any radiograph; it is damaged or was made to do harm.');

const tooLarge = (): string =>
  t('The compressed DICOM file unpacks to more than any radiograph holds; it is probably damaged.');

const pixelData = 'x7fe00010';
const unknownLength = 0xffffffff;
const rows = 'x00280010';
const deflated = '1.2.840.10008.1.2.1.99';
const implicit = '1.2.840.10008.1.2';
const bigEndian = '1.2.840.10008.1.2.2';

/** The whole file, its pixels too. @throws Unreadable */
export function openDicom(bytes: Uint8Array): DicomFile {
  // A deflated file is unpacked as far as its own header says that it goes, and no further.
  const header = readWithin(bytes, readDicomHeader());
  const pixels = header.syntax === deflated ? header.dataSet.elements[pixelData] : undefined;
  const length = pixels?.length === unknownLength ? mostInflated : (pixels?.length ?? 0);
  if (length > mostInflated) throw new Unreadable(tooLarge());
  return usable(walked(bytes, pixels ? Math.min(pixels.dataOffset + length, mostInflated) : mostInflatedHeader));
}

/**
 * The header alone, out of as much of the file's beginning as it takes. One that is longer than `mostHeader`, and a file that was cut
 * short in its picture, are read as far as they go.
 * @throws Unreadable
 */
export function* readDicomHeader(): HeaderReader<DicomFile> {
  for (let length = firstPrefix; ; length *= 4) {
    const bytes = yield { start: 0, length };
    const file = walked(bytes, mostInflatedHeader);
    if (file?.dataSet.elements[pixelData] || bytes.length < length || length >= mostHeader) return usable(file);
  }
}

function usable(file: (DicomFile & { readonly toItsEnd: boolean }) | null): DicomFile {
  if (!file || !(file.toItsEnd || file.dataSet.elements[rows]))
    throw new Unreadable(t('The DICOM file is damaged or cut short: its header cannot be read.'));
  return file;
}

/**
 * Null where not even the transfer syntax can be read. `toItsEnd`: nothing was in the way.
 * @param most bytes of a deflated file that are inflated.
 * @throws Unreadable
 */
function walked(bytes: Uint8Array, most: number): (DicomFile & { readonly toItsEnd: boolean }) | null {
  const count = { left: mostNumbers };
  const little = dicomParser.littleEndianByteArrayParser;
  const start = metaInformation(bytes, count);
  if (!start) return null;
  const { meta, syntax, end } = start;
  const body =
    syntax === deflated ? joined([bytes.subarray(0, end), inflate('bare', bytes.subarray(end), most, null)]) : bytes;
  const dataSet = newDataSet(syntax === bigEndian ? dicomParser.bigEndianByteArrayParser : little, body);
  let toItsEnd = true;
  try {
    // Stopping at the pixel data keeps this fast for a large film, and lets the header of a file be read that was cut short in its picture.
    const walk = syntax === implicit ? dicomParser.parseDicomDataSetImplicit : dicomParser.parseDicomDataSetExplicit;
    walk(dataSet, counting(dataSet.byteArrayParser, body, end, count), body.length, { untilTag: pixelData });
  } catch (cause) {
    if (cause instanceof Unreadable) throw cause;
    toItsEnd = false;
  }
  Object.assign(dataSet.elements, meta.elements);
  return { dataSet, syntax, bytes: body, toItsEnd };
}

/** The File Meta Information (PS3.10 7.1): group 0002 and no other, always explicit and little endian. */
function metaInformation(
  bytes: Uint8Array,
  count: { left: number },
): { readonly meta: DataSet; readonly syntax: string; readonly end: number } | null {
  const little = dicomParser.littleEndianByteArrayParser;
  const meta = newDataSet(little, bytes);
  try {
    const stream = counting(little, bytes, 132, count);
    while (stream.position + 2 <= bytes.length && little.readUint16(bytes, stream.position) === 2) {
      const element = dicomParser.readDicomElementExplicit(stream, meta.warnings);
      // What follows may be big endian; these are not.
      element.parser = little;
      meta.elements[element.tag] = element;
    }
    const syntax = textOf(meta, 'x00020010');
    return syntax === null ? null : { meta, syntax, end: stream.position };
  } catch (cause) {
    if (cause instanceof Unreadable) throw cause;
    return null;
  }
}

/** A stream that gives up where more numbers are read from it than any header has: the library makes objects of all that it meets. */
function counting(parser: ByteArrayParser, bytes: Uint8Array, start: number, count: { left: number }): ByteStream {
  const stream = new dicomParser.ByteStream(parser, bytes, start);
  const spend = (): void => {
    count.left -= 1;
    if (count.left < 0) throw new Unreadable(tooMany());
  };
  const { readUint16, readUint32 } = stream;
  stream.readUint16 = () => (spend(), readUint16.call(stream));
  stream.readUint32 = () => (spend(), readUint32.call(stream));
  return stream;
}

/** The library has this class and forgets to say so in its types. */
function newDataSet(parser: ByteArrayParser, bytes: Uint8Array): DataSet {
  const Made = (
    dicomParser as unknown as {
      DataSet: new (parser: ByteArrayParser, bytes: Uint8Array, elements: Record<string, Element>) => DataSet;
    }
  ).DataSet;
  const made = new Made(parser, bytes, {});
  made.warnings = [];
  return made;
}
