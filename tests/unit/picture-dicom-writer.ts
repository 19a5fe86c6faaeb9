import { deflateRawSync } from 'node:zlib';

/** A value as it is written: text for string VRs, numbers for US and SS (two bytes each), bytes as they are, or a sequence's items. */
export type Value = string | readonly number[] | Uint8Array | readonly Element[][];

export interface Element {
  /** Group and element in hexadecimal, 8 digits. */
  readonly tag: string;
  readonly vr: string;
  readonly value: Value;
}

export const syntaxes = {
  implicit: '1.2.840.10008.1.2',
  explicit: '1.2.840.10008.1.2.1',
  deflated: '1.2.840.10008.1.2.1.99',
  big: '1.2.840.10008.1.2.2',
} as const;

const longVrs = new Set(['OB', 'OW', 'SQ', 'UN', 'UT', 'OF', 'OD']);

/** A DICOM Part 10 file made byte by byte (PS3.5 7.1, PS3.10 7.1): preamble, file meta information, data set in the order given. */
export function dicomFile(syntax: string, elements: readonly Element[]): Uint8Array {
  const meta = dataSet([{ tag: '00020010', vr: 'UI', value: syntax }], { explicit: true, little: true });
  const length = dataSet([{ tag: '00020000', vr: 'UL', value: littleWords(meta.length, 0) }], {
    explicit: true,
    little: true,
  });
  const body = dataSet(elements, { explicit: syntax !== syntaxes.implicit, little: syntax !== syntaxes.big });
  return joined([
    new Uint8Array(128),
    ascii('DICM'),
    length,
    meta,
    syntax === syntaxes.deflated ? deflated(body) : body,
  ]);
}

/** Encapsulated pixel data (PS3.5 A.4): an offset table, which may be empty, then the fragments of all frames. */
export function encapsulated(fragments: readonly Uint8Array[], table: readonly number[] = []): Uint8Array {
  const offsets = new Uint8Array(4 * table.length);
  table.forEach((offset, i) => new DataView(offsets.buffer).setUint32(4 * i, offset, true));
  return joined([
    ...[offsets, ...fragments].flatMap((fragment) => [item(0xe000, even(fragment, 0).length), even(fragment, 0)]),
    item(0xe0dd, 0),
  ]);
}

export interface PixelLayout {
  readonly width: number;
  readonly height: number;
  readonly bitsAllocated?: number;
  readonly bitsStored?: number;
  readonly highBit?: number;
  readonly signed?: boolean;
  readonly samples?: number;
  readonly photometric?: string;
  readonly planar?: number;
  readonly frames?: number;
  /** Any further elements, before the pixel data, sorted into place by tag. */
  readonly more?: readonly Element[];
}

/** A file with the Image Pixel Module (PS3.3 C.7.6.3). @param pixels native pixels as bytes, or `encapsulated(...)`. */
export function pictureFile(
  syntax: string,
  layout: PixelLayout,
  pixels: Uint8Array | null,
  pixelVr = 'OW',
): Uint8Array {
  const { width, height, bitsAllocated = 16, samples = 1 } = layout;
  const bitsStored = layout.bitsStored ?? bitsAllocated;
  const elements: Element[] = [
    { tag: '00280002', vr: 'US', value: [samples] },
    { tag: '00280004', vr: 'CS', value: layout.photometric ?? (samples === 3 ? 'RGB' : 'MONOCHROME2') },
    ...(samples === 3 ? [{ tag: '00280006', vr: 'US', value: [layout.planar ?? 0] }] : []),
    ...(layout.frames ? [{ tag: '00280008', vr: 'IS', value: String(layout.frames) }] : []),
    { tag: '00280010', vr: 'US', value: [height] },
    { tag: '00280011', vr: 'US', value: [width] },
    { tag: '00280100', vr: 'US', value: [bitsAllocated] },
    { tag: '00280101', vr: 'US', value: [bitsStored] },
    { tag: '00280102', vr: 'US', value: [layout.highBit ?? bitsStored - 1] },
    { tag: '00280103', vr: 'US', value: [layout.signed ? 1 : 0] },
    ...(layout.more ?? []),
  ];
  elements.sort((a, b) => (a.tag < b.tag ? -1 : 1));
  if (pixels) elements.push({ tag: '7fe00010', vr: pixelVr, value: pixels });
  return dicomFile(syntax, elements);
}

interface Form {
  readonly explicit: boolean;
  readonly little: boolean;
}

function dataSet(elements: readonly Element[], form: Form): Uint8Array {
  return joined(elements.map((element) => written(element, form)));
}

function written({ tag, vr, value }: Element, form: Form): Uint8Array {
  const bytes = body(vr, value, form);
  const head = new DataView(new ArrayBuffer(12));
  const group = Number.parseInt(tag.slice(0, 4), 16);
  head.setUint16(0, group, form.little);
  head.setUint16(2, Number.parseInt(tag.slice(4), 16), form.little);
  // Compressed pixel data and only they begin with an item, and have no length of their own.
  const undefinedLength =
    tag === '7fe00010' && bytes[0] === 0xfe && bytes[1] === 0xff && bytes[2] === 0x00 && bytes[3] === 0xe0;
  const length = undefinedLength ? 0xffffffff : bytes.length;
  if (!form.explicit) {
    head.setUint32(4, length, form.little);
    return joined([new Uint8Array(head.buffer, 0, 8), bytes]);
  }
  head.setUint8(4, vr.charCodeAt(0));
  head.setUint8(5, vr.charCodeAt(1));
  if (longVrs.has(vr)) {
    head.setUint32(8, length, form.little);
    return joined([new Uint8Array(head.buffer, 0, 12), bytes]);
  }
  head.setUint16(6, length, form.little);
  return joined([new Uint8Array(head.buffer, 0, 8), bytes]);
}

function body(vr: string, value: Value, form: Form): Uint8Array {
  if (typeof value === 'string') return even(ascii(value), vr === 'UI' ? 0 : 32);
  if (value instanceof Uint8Array) return even(value, 0);
  if (vr === 'SQ') {
    return joined(
      (value as readonly Element[][]).flatMap((elements) => {
        const content = dataSet(elements, form);
        return [item(0xe000, content.length, form.little), content];
      }),
    );
  }
  const words = value as readonly number[];
  const bytes = new Uint8Array(words.length * 2);
  words.forEach((word, i) => new DataView(bytes.buffer).setUint16(2 * i, word & 0xffff, form.little));
  return bytes;
}

function item(element: number, length: number, little = true): Uint8Array {
  const head = new DataView(new ArrayBuffer(8));
  head.setUint16(0, 0xfffe, little);
  head.setUint16(2, element, little);
  head.setUint32(4, length, little);
  return new Uint8Array(head.buffer);
}

/** Two little endian words as the bytes of a UL. */
function littleWords(low: number, high: number): readonly number[] {
  return [low, high];
}

function deflated(bytes: Uint8Array): Uint8Array {
  return even(new Uint8Array(deflateRawSync(bytes)), 0);
}

function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

function even(bytes: Uint8Array, filler: number): Uint8Array {
  return bytes.length % 2 === 0 ? bytes : joined([bytes, Uint8Array.of(filler)]);
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
