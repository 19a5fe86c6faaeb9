import { t } from '../../language/words.ts';
import { Unreadable } from '../unreadable.ts';

const damaged = (): string => t('The compressed picture (JPEG of 12 bits) is damaged.');

/**
 * Grey JPEG of 12 bits, sequential with Huffman codes (ITU-T T.81, process 4). Written here because the libraries that read it
 * either shift every value or weigh megabytes.
 * @param stream from SOI, with a frame header that was checked for size, precision and one component.
 * @returns width * height values of 0 to 4095.
 * @throws Unreadable, RangeError where the bytes end early.
 */
export function decodeTwelveBits(stream: Uint8Array, width: number, height: number): Uint16Array {
  const { scan, quantiser, dc, ac, restartInterval } = tablesOf(stream);
  const bits = new BitReader(stream, scan);
  const values = new Uint16Array(width * height);
  const block = new Float64Array(64);
  const across = Math.ceil(width / 8);
  const count = across * Math.ceil(height / 8);
  let last = 0;
  for (let i = 0; i < count; i++) {
    if (restartInterval > 0 && i > 0 && i % restartInterval === 0) {
      bits.restart();
      last = 0;
    }
    block.fill(0);
    last += bits.signed(bits.symbol(dc));
    block[0] = last * (quantiser[0] ?? 0);
    for (let k = 1; k < 64; k++) {
      const symbol = bits.symbol(ac);
      const size = symbol & 15;
      const zeros = symbol >> 4;
      if (size === 0 && zeros !== 15) break;
      k += zeros;
      if (k > 63) throw new Unreadable(damaged());
      if (size > 0) block[zigzag[k] ?? 0] = bits.signed(size) * (quantiser[k] ?? 0);
    }
    place(block, values, width, height, (i % across) * 8, Math.floor(i / across) * 8);
  }
  return values;
}

/** Place in the block (row * 8 + column) of each coefficient in the order of coding (T.81 figure A.6). */
const zigzag = Uint8Array.from([
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7, 14, 21, 28,
  35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47,
  55, 62, 63,
]);

/** cosines[x * 8 + u] of the inverse transform in one direction (T.81 A.3.3). */
const cosines = Float64Array.from(
  { length: 64 },
  (_, i) => (Math.cos((((i >> 3) * 2 + 1) * (i & 7) * Math.PI) / 16) * (i & 7 ? 1 : Math.SQRT1_2)) / 2,
);
const between = new Float64Array(64);

/** Inverse transform of a block, level shift, and into the picture as far as it reaches. */
function place(
  block: Float64Array,
  values: Uint16Array,
  width: number,
  height: number,
  left: number,
  top: number,
): void {
  for (let v = 0; v < 8; v++) {
    for (let x = 0; x < 8; x++) {
      let sum = 0;
      for (let u = 0; u < 8; u++) sum += (block[v * 8 + u] ?? 0) * (cosines[x * 8 + u] ?? 0);
      between[v * 8 + x] = sum;
    }
  }
  for (let y = 0; y < 8 && top + y < height; y++) {
    for (let x = 0; x < 8 && left + x < width; x++) {
      let sum = 0;
      for (let v = 0; v < 8; v++) sum += (between[v * 8 + x] ?? 0) * (cosines[y * 8 + v] ?? 0);
      values[(top + y) * width + left + x] = Math.min(4095, Math.max(0, Math.round(sum + 2048)));
    }
  }
}

interface Codes {
  /** By length 1 to 16: the largest code of that length (-1 for none), and what to add to a code to find its symbol. */
  readonly largest: Int32Array;
  readonly offset: Int32Array;
  readonly symbols: Uint8Array;
}

interface Tables {
  /** Where the coded data begin. */
  readonly scan: number;
  readonly quantiser: Float64Array;
  readonly dc: Codes;
  readonly ac: Codes;
  readonly restartInterval: number;
}

function tablesOf(stream: Uint8Array): Tables {
  const view = new DataView(stream.buffer, stream.byteOffset, stream.byteLength);
  const quantisers = new Map<number, Float64Array>();
  const codes = new Map<number, Codes>();
  let restartInterval = 0;
  let chosen = 0;
  for (let at = 2; ;) {
    while (view.getUint8(at) === 0xff && view.getUint8(at + 1) === 0xff) at++;
    if (view.getUint8(at) !== 0xff) throw new Unreadable(damaged());
    const marker = view.getUint8(at + 1);
    const end = at + 2 + view.getUint16(at + 2);
    const body = stream.subarray(at + 4, end);
    if (marker === 0xc1 || marker === 0xc0) chosen = view.getUint8(at + 12);
    if (marker === 0xdd) restartInterval = view.getUint16(at + 4);
    if (marker === 0xdb) addQuantisers(body, quantisers);
    if (marker === 0xc4) addCodes(body, codes);
    if (marker === 0xda) {
      const selected = view.getUint8(at + 6);
      const quantiser = quantisers.get(chosen);
      const dc = codes.get(selected >> 4);
      const ac = codes.get(16 + (selected & 15));
      if (view.getUint8(at + 4) !== 1 || !quantiser || !dc || !ac) throw new Unreadable(damaged());
      return { scan: end, quantiser, dc, ac, restartInterval };
    }
    at = end;
  }
}

/** A DQT segment (T.81 B.2.4.1), which may hold several tables. */
function addQuantisers(body: Uint8Array, quantisers: Map<number, Float64Array>): void {
  const view = new DataView(body.buffer, body.byteOffset, body.byteLength);
  for (let at = 0; at < body.length;) {
    const kind = view.getUint8(at);
    const first = at + 1;
    const size = kind >> 4 ? 2 : 1;
    const read = (i: number): number => (size === 2 ? view.getUint16(first + 2 * i) : view.getUint8(first + i));
    quantisers.set(
      kind & 15,
      Float64Array.from({ length: 64 }, (_, i) => read(i)),
    );
    at = first + 64 * size;
  }
}

/** A DHT segment (T.81 B.2.4.2), which may hold several tables; those for AC are kept from number 16 on. */
function addCodes(body: Uint8Array, codes: Map<number, Codes>): void {
  for (let at = 0; at < body.length;) {
    const lengths = body.subarray(at + 1, at + 17);
    const symbols = body.slice(at + 17, at + 17 + lengths.reduce((sum, length) => sum + length, 0));
    codes.set(body[at] ?? 0, codesOf(lengths, symbols));
    at += 17 + symbols.length;
  }
}

/** T.81 annex C: codes of one length follow each other, and each length begins at twice what the one before ended with. */
function codesOf(lengths: Uint8Array, symbols: Uint8Array): Codes {
  const largest = new Int32Array(17).fill(-1);
  const offset = new Int32Array(17);
  let code = 0;
  let used = 0;
  for (let length = 1; length <= 16; length++) {
    const count = lengths[length - 1] ?? 0;
    offset[length] = used - code;
    if (count > 0) largest[length] = code + count - 1;
    used += count;
    code = (code + count) * 2;
  }
  return { largest, offset, symbols };
}

/** Bits of the coded data, without the zeros that are stuffed behind FF (T.81 B.1.1.5). */
class BitReader {
  private readonly bytes: Uint8Array;
  private at: number;
  private byte = 0;
  private left = 0;

  constructor(bytes: Uint8Array, at: number) {
    this.bytes = bytes;
    this.at = at;
  }

  bit(): number {
    if (this.left === 0) {
      const byte = this.bytes[this.at++];
      if (byte === undefined || (byte === 0xff && this.bytes[this.at++] !== 0)) throw new Unreadable(damaged());
      this.byte = byte;
      this.left = 8;
    }
    this.left--;
    return (this.byte >> this.left) & 1;
  }

  symbol({ largest, offset, symbols }: Codes): number {
    let code = 0;
    for (let length = 1; length <= 16; length++) {
      code = code * 2 + this.bit();
      if (code <= (largest[length] ?? -1)) {
        const symbol = symbols[code + (offset[length] ?? 0)];
        if (symbol !== undefined) return symbol;
        break;
      }
    }
    throw new Unreadable(damaged());
  }

  /** A number of the given category (T.81 F.2.2.1, EXTEND). */
  signed(size: number): number {
    if (size > 15) throw new Unreadable(damaged());
    let value = 0;
    for (let i = 0; i < size; i++) value = value * 2 + this.bit();
    return size > 0 && value < 2 ** (size - 1) ? value - 2 ** size + 1 : value;
  }

  /** Past the rest of the byte and the restart marker that must follow. */
  restart(): void {
    this.left = 0;
    const marker = this.bytes[this.at + 1];
    if (this.bytes[this.at] !== 0xff || marker === undefined || marker < 0xd0 || marker > 0xd7)
      throw new Unreadable(damaged());
    this.at += 2;
  }
}
