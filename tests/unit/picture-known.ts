/** A picture of which each value is known: a slope across, steps down, and a bright disc, so that no mirroring or shift goes unseen. */
export function knownValues(width: number, height: number, bits: number): Uint16Array {
  const most = 2 ** bits - 1;
  return Uint16Array.from({ length: width * height }, (_, i) => {
    const x = i % width;
    const y = Math.floor(i / width);
    const inDisc = (x - width * 0.7) ** 2 + (y - height * 0.3) ** 2 < (height * 0.2) ** 2;
    return inDisc ? most : Math.round(most * (0.6 * (x / (width - 1)) + 0.3 * (Math.floor((4 * y) / height) / 3)));
  });
}

/** The same in three colours, pixel by pixel: red falls from left to right, green rises downwards, blue is the picture above. */
export function knownColours(width: number, height: number): Uint8Array {
  const blue = knownValues(width, height, 8);
  return Uint8Array.from({ length: width * height * 3 }, (_, i) => {
    const pixel = Math.floor(i / 3);
    if (i % 3 === 0) return Math.round(255 * (1 - (pixel % width) / (width - 1)));
    if (i % 3 === 1) return Math.round((255 * Math.floor(pixel / width)) / (height - 1));
    return blue[pixel] ?? 0;
  });
}

export function littleEndian(values: Uint16Array): Uint8Array {
  const bytes = new Uint8Array(values.length * 2);
  values.forEach((value, i) => new DataView(bytes.buffer).setUint16(2 * i, value, true));
  return bytes;
}

export function bigEndian(values: Uint16Array): Uint8Array {
  const bytes = new Uint8Array(values.length * 2);
  values.forEach((value, i) => new DataView(bytes.buffer).setUint16(2 * i, value, false));
  return bytes;
}

/** Darkest to black, brightest to white. */
export function stretched(values: ArrayLike<number>): number[] {
  const all = Array.from(values);
  const low = all.reduce((least, value) => Math.min(least, value));
  const high = all.reduce((most, value) => Math.max(most, value));
  return all.map((value) => Math.round((255 * (value - low)) / (high - low)));
}

/** Largest difference of two pictures, in shades. */
export function largestDifference(a: ArrayLike<number>, b: ArrayLike<number>): number {
  if (a.length !== b.length) throw new Error(`${a.length} values against ${b.length}`);
  let largest = 0;
  for (let i = 0; i < a.length; i++) largest = Math.max(largest, Math.abs((a[i] ?? NaN) - (b[i] ?? NaN)));
  return largest;
}
