/**
 * A grey JPEG of 12 bits (ITU-T T.81, extended sequential DCT, process 4), made from the definitions: the DCT as a plain double sum
 * (A.3.3), a quantiser of one step for all, and Huffman tables in which every symbol has a code of the same length.
 */
export function twelveBitJpeg(
  values: Uint16Array,
  width: number,
  height: number,
  { step = 4, restartInterval = 0 } = {},
): Uint8Array {
  const out: number[] = [0xff, 0xd8];
  const segment = (marker: number, body: readonly number[]): void =>
    void out.push(0xff, marker, ...two(body.length + 2), ...body);
  segment(0xdb, [0x00, ...Array<number>(64).fill(step)]);
  segment(0xc1, [12, ...two(height), ...two(width), 1, 1, 0x11, 0]);
  segment(0xc4, [0x00, ...lengths(5, dcSymbols.length), ...dcSymbols]);
  segment(0xc4, [0x10, ...lengths(8, acSymbols.length), ...acSymbols]);
  if (restartInterval) segment(0xdd, two(restartInterval));
  segment(0xda, [1, 1, 0x00, 0, 63, 0]);

  const bits: number[] = [];
  const flush = (): void => {
    while (bits.length % 8) bits.push(1);
    for (let i = 0; i < bits.length; i += 8) {
      const byte = bits.slice(i, i + 8).reduce((sum, bit) => sum * 2 + bit, 0);
      out.push(byte);
      if (byte === 0xff) out.push(0);
    }
    bits.length = 0;
  };
  const put = (value: number, count: number): void => {
    for (let i = count - 1; i >= 0; i--) bits.push((value >> i) & 1);
  };
  let last = 0;
  let done = 0;
  for (let top = 0; top < height; top += 8) {
    for (let left = 0; left < width; left += 8) {
      if (restartInterval && done > 0 && done % restartInterval === 0) {
        flush();
        out.push(0xff, 0xd0 + ((done / restartInterval - 1) % 8));
        last = 0;
      }
      done++;
      const block = (x: number, y: number): number =>
        (values[Math.min(top + y, height - 1) * width + Math.min(left + x, width - 1)] ?? 0) - 2048;
      const coefficients = zigzag.map(([u, v]) => Math.round(dct(block, u, v) / step));
      const difference = (coefficients[0] ?? 0) - last;
      last = coefficients[0] ?? 0;
      put(dcSymbols.indexOf(category(difference)), 5);
      put(extra(difference), category(difference));
      let zeros = 0;
      for (const coefficient of coefficients.slice(1)) {
        if (coefficient === 0) {
          zeros++;
          continue;
        }
        for (; zeros > 15; zeros -= 16) put(acSymbols.indexOf(0xf0), 8);
        put(acSymbols.indexOf(zeros * 16 + category(coefficient)), 8);
        put(extra(coefficient), category(coefficient));
        zeros = 0;
      }
      if (zeros > 0) put(acSymbols.indexOf(0x00), 8);
    }
  }
  flush();
  return Uint8Array.from([...out, 0xff, 0xd9]);
}

const dcSymbols = Array.from({ length: 16 }, (_, i) => i);
const acSymbols = [0x00, 0xf0, ...Array.from({ length: 16 * 14 }, (_, i) => Math.floor(i / 14) * 16 + (i % 14) + 1)];

/** BITS of T.81 B.2.4.2: how many codes there are of each length. */
function lengths(length: number, count: number): number[] {
  return Array.from({ length: 16 }, (_, i) => (i === length - 1 ? count : 0));
}

/** The zigzag order of T.81 figure A.6, as (u across, v down): along each rising diagonal, turning at every one. */
const zigzag = Array.from({ length: 15 }, (_, sum) => {
  const diagonal = Array.from({ length: 8 }, (_, v) => [sum - v, v] as const).filter(([u]) => u >= 0 && u < 8);
  return sum % 2 ? diagonal : diagonal.reverse();
}).flat();

function dct(block: (x: number, y: number) => number, u: number, v: number): number {
  let sum = 0;
  for (let y = 0; y < 8; y++)
    for (let x = 0; x < 8; x++)
      sum += block(x, y) * Math.cos(((2 * x + 1) * u * Math.PI) / 16) * Math.cos(((2 * y + 1) * v * Math.PI) / 16);
  return (sum * (u ? 1 : Math.SQRT1_2) * (v ? 1 : Math.SQRT1_2)) / 4;
}

function category(value: number): number {
  return value === 0 ? 0 : Math.floor(Math.log2(Math.abs(value))) + 1;
}

function extra(value: number): number {
  return value < 0 ? value + 2 ** category(value) - 1 : value;
}

function two(value: number): [number, number] {
  return [value >> 8, value & 255];
}
