import { deflateSync } from 'node:zlib';
import { joined } from './picture-dicom-writer.ts';

export type Compression = 'none' | 'packbits' | 'lzw' | 'deflate';

const codes: Readonly<Record<Compression, number>> = { none: 1, packbits: 32773, lzw: 5, deflate: 8 };

export interface TiffPicture {
  readonly width: number;
  readonly height: number;
  readonly bits: 1 | 4 | 8 | 16;
  readonly samples?: number;
  /** 0 white is zero, 1 black is zero, 2 RGB, 3 palette. */
  readonly photometric: number;
  /** Rows as they are packed into bytes (each row begins a byte); tile after tile where there are tiles. */
  readonly bytes: Uint8Array;
  readonly little?: boolean;
  readonly compression?: Compression;
  readonly rowsPerStrip?: number;
  readonly tile?: { readonly width: number; readonly height: number };
  readonly orientation?: number;
  /** Differences along the row (predictor 2), which the bytes then hold already. */
  readonly predictor?: number;
  readonly colorMap?: readonly number[];
  /** Replaces a tag's value, to write what no program would. */
  readonly override?: Readonly<Record<number, number>>;
}

/** A baseline TIFF file (TIFF 6.0) byte by byte: header, strips, directory, values that do not fit into it. */
export function tiffFile(picture: TiffPicture): Uint8Array {
  const { little = true, compression = 'none', samples = 1, rowsPerStrip = picture.height } = picture;
  const rowBytes = Math.ceil((picture.width * samples * picture.bits) / 8);
  const strips: Uint8Array[] = [];
  const blockBytes = picture.tile
    ? (picture.tile.width * picture.tile.height * samples * picture.bits) / 8
    : rowsPerStrip * rowBytes;
  for (let at = 0; at < picture.bytes.length; at += blockBytes)
    strips.push(packed(picture.bytes.subarray(at, at + blockBytes), compression));
  let at = 8;
  const offsets = strips.map((strip) => {
    const start = at;
    at += strip.length + (strip.length % 2);
    return start;
  });
  const entries = new Map<number, readonly number[]>([
    [256, [picture.width]],
    [257, [picture.height]],
    [258, Array<number>(samples).fill(picture.bits)],
    [259, [codes[compression]]],
    [262, [picture.photometric]],
    [277, [samples]],
  ]);
  const lengths = strips.map((strip) => strip.length);
  const places: [number, readonly number[]][] = picture.tile
    ? [
        [322, [picture.tile.width]],
        [323, [picture.tile.height]],
        [324, offsets],
        [325, lengths],
      ]
    : [
        [273, offsets],
        [278, [rowsPerStrip]],
        [279, lengths],
      ];
  for (const [tag, values] of places) entries.set(tag, values);
  if (picture.orientation) entries.set(274, [picture.orientation]);
  if (picture.predictor) entries.set(317, [picture.predictor]);
  if (picture.colorMap) entries.set(320, picture.colorMap);
  for (const [tag, value] of Object.entries(picture.override ?? {})) entries.set(Number(tag), [value]);

  const sorted = [...entries].sort(([a], [b]) => a - b);
  const directory = new DataView(new ArrayBuffer(2 + 12 * sorted.length + 4));
  directory.setUint16(0, sorted.length, little);
  const spill: Uint8Array[] = [];
  let spillAt = at + directory.byteLength;
  sorted.forEach(([tag, values], i) => {
    const long = values.some((value) => value > 65535) || offsets === values || lengths === values;
    const body = new DataView(new ArrayBuffer(values.length * (long ? 4 : 2)));
    values.forEach((value, j) => (long ? body.setUint32(4 * j, value, little) : body.setUint16(2 * j, value, little)));
    directory.setUint16(2 + 12 * i, tag, little);
    directory.setUint16(4 + 12 * i, long ? 4 : 3, little);
    directory.setUint32(6 + 12 * i, values.length, little);
    if (body.byteLength <= 4) new Uint8Array(directory.buffer).set(new Uint8Array(body.buffer), 10 + 12 * i);
    else {
      directory.setUint32(10 + 12 * i, spillAt, little);
      spill.push(new Uint8Array(body.buffer));
      spillAt += body.byteLength;
    }
  });
  const head = new DataView(new ArrayBuffer(8));
  head.setUint16(0, little ? 0x4949 : 0x4d4d);
  head.setUint16(2, 42, little);
  head.setUint32(4, at, little);
  return joined([
    new Uint8Array(head.buffer),
    ...strips.flatMap((strip) => [strip, new Uint8Array(strip.length % 2)]),
    new Uint8Array(directory.buffer),
    ...spill,
  ]);
}

function packed(bytes: Uint8Array, compression: Compression): Uint8Array {
  switch (compression) {
    case 'none':
      return bytes;
    case 'deflate':
      return new Uint8Array(deflateSync(bytes));
    case 'packbits':
      return packBits(bytes);
    case 'lzw':
      return lzw(bytes);
  }
}

/** TIFF 6.0, section 9: runs of three and more, and the rest as it is. */
function packBits(bytes: Uint8Array): Uint8Array {
  const out: number[] = [];
  for (let i = 0; i < bytes.length;) {
    let run = 1;
    while (run < 128 && i + run < bytes.length && bytes[i + run] === bytes[i]) run++;
    if (run >= 3) {
      out.push(257 - run, bytes[i] ?? 0);
      i += run;
      continue;
    }
    const start = i;
    while (i < bytes.length && i - start < 128 && !(bytes[i] === bytes[i + 1] && bytes[i] === bytes[i + 2])) i++;
    out.push(i - start - 1, ...bytes.subarray(start, i));
  }
  return Uint8Array.from(out);
}

/** TIFF 6.0, section 13: codes of 9 to 12 bits, the highest bit first, one code earlier than GIF. */
function lzw(bytes: Uint8Array): Uint8Array {
  const bits: number[] = [];
  const fresh = (): Map<string, number> => new Map(Array.from({ length: 256 }, (_, i) => [String.fromCharCode(i), i]));
  let table = fresh();
  let next = 258;
  let length = 9;
  const put = (code: number): void => {
    for (let i = length - 1; i >= 0; i--) bits.push((code >> i) & 1);
  };
  put(256);
  let known = '';
  for (const byte of bytes) {
    const longer = known + String.fromCharCode(byte);
    if (table.has(longer)) {
      known = longer;
      continue;
    }
    put(table.get(known) ?? 0);
    table.set(longer, next++);
    if (next > 4094) {
      put(256);
      table = fresh();
      next = 258;
      length = 9;
    } else if (next > 2 ** length - 1) length++;
    known = String.fromCharCode(byte);
  }
  put(table.get(known) ?? 0);
  // The reader has added one more entry by now.
  if (next + 1 > 2 ** length - 1 && length < 12) length++;
  put(257);
  while (bits.length % 8) bits.push(0);
  return Uint8Array.from({ length: bits.length / 8 }, (_, i) =>
    bits.slice(8 * i, 8 * i + 8).reduce((sum, bit) => 2 * sum + bit, 0),
  );
}
