import { describe, expect, it } from 'vitest';
import { decodeTiff } from '../../shared/picture/decode-tiff.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import type { Raster } from '../../shared/picture/raster.ts';
import { bigEndian, knownColours, knownValues, littleEndian, stretched } from './picture-known.ts';
import { tiffFile, type Compression, type TiffPicture } from './picture-tiff-writer.ts';

const width = 37;
const height = 29;
const grey = Uint8Array.from(knownValues(width, height, 8));
const grey16 = knownValues(width, height, 16);
const colours = knownColours(width, height);
const compressions: readonly Compression[] = ['none', 'packbits', 'lzw', 'deflate'];

async function shown(picture: TiffPicture): Promise<Raster> {
  const { raster, problem } = await decodeTiff(tiffFile(picture));
  if (!raster) throw new Error(problem);
  return raster;
}

describe.each(compressions)('TIFF, compression %s', (compression) => {
  it.each([
    [true, height],
    [false, height],
    [true, 4],
    [false, 1],
  ])('little endian: %s, rows a strip: %i', async (little, rowsPerStrip) => {
    const common = { width, height, little, compression, rowsPerStrip };
    const plain = await shown({ ...common, bits: 8, photometric: 1, bytes: grey });
    expect([plain.width, plain.height, plain.channels]).toEqual([width, height, 1]);
    expect(Array.from(plain.data)).toEqual(Array.from(grey));
    const inverted = await shown({ ...common, bits: 8, photometric: 0, bytes: grey });
    expect(Array.from(inverted.data)).toEqual(Array.from(grey, (value) => 255 - value));
    const deep = await shown({
      ...common,
      bits: 16,
      photometric: 1,
      bytes: little ? littleEndian(grey16) : bigEndian(grey16),
    });
    expect(Array.from(deep.data)).toEqual(stretched(grey16));
    const colour = await shown({ ...common, bits: 8, samples: 3, photometric: 2, bytes: colours });
    expect(colour.channels).toBe(3);
    expect(Array.from(colour.data)).toEqual(Array.from(colours));
  });

  it('differences along the row (predictor 2)', async () => {
    const differences = grey.map((value, i) => (i % width === 0 ? value : value - (grey[i - 1] ?? 0)));
    expect(
      Array.from(
        (await shown({ width, height, bits: 8, photometric: 1, compression, predictor: 2, bytes: differences })).data,
      ),
    ).toEqual(Array.from(grey));
  });

  it('a palette of 256 and one of 16', async () => {
    const map = Array.from({ length: 768 }, (_, i) => ((i % 256) ^ (85 * Math.floor(i / 256))) * 257);
    const wide = await shown({ width, height, bits: 8, photometric: 3, compression, colorMap: map, bytes: grey });
    expect(Array.from(wide.data)).toEqual(Array.from(grey).flatMap((index) => [index, index ^ 85, index ^ 170]));
    const small = Array.from({ length: 48 }, (_, i) => (i % 16) * 1000 + Math.floor(i / 16) * 16000);
    const narrow = await shown({
      width: 4,
      height: 2,
      bits: 4,
      photometric: 3,
      compression,
      colorMap: small,
      bytes: Uint8Array.of(0x01, 0x23, 0xfe, 0x45),
    });
    expect(Array.from(narrow.data)).toEqual(
      [0, 1, 2, 3, 15, 14, 4, 5].flatMap((index) =>
        [index * 1000, index * 1000 + 16000, index * 1000 + 32000].map((value) => value >> 8),
      ),
    );
  });
});

describe('TIFF', () => {
  it('black and white of one bit', async () => {
    const raster = await shown({
      width: 10,
      height: 2,
      bits: 1,
      photometric: 1,
      bytes: Uint8Array.of(0b10101010, 0b11000000, 0b00001111, 0b01000000),
    });
    expect(Array.from(raster.data)).toEqual(
      [1, 0, 1, 0, 1, 0, 1, 0, 1, 1, 0, 0, 0, 0, 1, 1, 1, 1, 0, 1].map((bit) => bit * 255),
    );
  });

  it('16 bits a colour, and a fourth channel that is left out', async () => {
    const deep = Uint16Array.from(colours, (value) => value * 257);
    expect(
      Array.from(
        (await shown({ width, height, bits: 16, samples: 3, photometric: 2, bytes: littleEndian(deep) })).data,
      ),
    ).toEqual(Array.from(colours));
    const fourth = Uint8Array.from({ length: width * height * 4 }, (_, i) =>
      i % 4 === 3 ? 7 : (colours[Math.floor(i / 4) * 3 + (i % 4)] ?? 0),
    );
    expect(
      Array.from((await shown({ width, height, bits: 8, samples: 4, photometric: 2, bytes: fourth })).data),
    ).toEqual(Array.from(colours));
  });

  it('colour after colour (planar configuration 2)', async () => {
    const rows = 30;
    const mixed = knownColours(width, rows);
    const planes = Uint8Array.from(
      mixed,
      (_, i) => mixed[(i % (width * rows)) * 3 + Math.floor(i / (width * rows))] ?? 0,
    );
    // A third of the rows of three samples are as many bytes as one plane.
    const raster = await shown({
      width,
      height: rows,
      bits: 8,
      samples: 3,
      photometric: 2,
      rowsPerStrip: rows / 3,
      override: { 278: rows, 284: 2 },
      bytes: planes,
      compression: 'lzw',
    });
    expect(Array.from(raster.data)).toEqual(Array.from(mixed));
  });

  it.each(compressions)('tiles that reach beyond the edge, compression %s', async (compression) => {
    const tile = { width: 16, height: 16 };
    const across = Math.ceil(width / 16);
    const bytes = Uint8Array.from({ length: across * Math.ceil(height / 16) * 256 }, (_, i) => {
      const x = (Math.floor(i / 256) % across) * 16 + (i % 16);
      const y = Math.floor(i / 256 / across) * 16 + (Math.floor(i / 16) % 16);
      return x < width && y < height ? (grey[y * width + x] ?? 0) : 0;
    });
    expect(
      Array.from((await shown({ width, height, bits: 8, photometric: 1, tile, compression, bytes })).data),
    ).toEqual(Array.from(grey));
  });

  // Where the stored top left corner (1) and its right neighbour (2) are seen, by TIFF 6.0, tag 274. Stored: 1 2 3 over 4 5 6.
  it.each([
    [
      1,
      [
        [1, 2, 3],
        [4, 5, 6],
      ],
    ],
    [
      2,
      [
        [3, 2, 1],
        [6, 5, 4],
      ],
    ],
    [
      3,
      [
        [6, 5, 4],
        [3, 2, 1],
      ],
    ],
    [
      4,
      [
        [4, 5, 6],
        [1, 2, 3],
      ],
    ],
    [
      5,
      [
        [1, 4],
        [2, 5],
        [3, 6],
      ],
    ],
    [
      6,
      [
        [4, 1],
        [5, 2],
        [6, 3],
      ],
    ],
    [
      7,
      [
        [6, 3],
        [5, 2],
        [4, 1],
      ],
    ],
    [
      8,
      [
        [3, 6],
        [2, 5],
        [1, 4],
      ],
    ],
  ])('orientation %i is turned upright, and the facts give the same size', async (orientation, rows) => {
    const picture: TiffPicture = {
      width: 3,
      height: 2,
      bits: 8,
      photometric: 1,
      orientation,
      bytes: Uint8Array.of(1, 2, 3, 4, 5, 6),
    };
    const raster = await shown(picture);
    expect({ width: raster.width, height: raster.height, data: Array.from(raster.data) }).toEqual({
      width: rows[0]?.length,
      height: rows.length,
      data: rows.flat(),
    });
    expect(readPictureInMemory(tiffFile(picture))).toMatchObject({
      width: raster.width,
      height: raster.height,
      orientation,
    });
  });

  it('what is not read is told', async () => {
    const picture: TiffPicture = { width, height, bits: 8, photometric: 1, bytes: grey };
    const overrides: readonly Readonly<Record<number, number>>[] = [
      { 259: 4 },
      { 259: 34712 },
      { 256: 60_000, 257: 60_000 },
      { 256: 9_000, 257: 7_000 },
      { 273: 5_000_000 },
      { 279: 0 },
      { 279: 100 },
      { 262: 8 },
    ];
    for (const override of overrides) {
      expect((await decodeTiff(tiffFile({ ...picture, override }))).problem).toMatch(/^[A-Z].*\.$/);
    }
    expect((await decodeTiff(tiffFile({ ...picture, override: { 256: 9_000, 257: 7_000 } }))).problem).toMatch(
      /only \d+ bytes/,
    );
    expect((await decodeTiff(new Uint8Array(3))).problem).toMatch(/^The TIFF file/);
  });

  it.each(compressions)('%s: cut short or changed anywhere, a picture or a sentence', async (compression) => {
    const whole = tiffFile({ width, height, bits: 8, photometric: 1, compression, rowsPerStrip: 5, bytes: grey });
    let state = 42;
    const roll = (below: number): number => (state = (state * 48271) % 2147483647) % below;
    let told = 0;
    for (let round = 0; round < 150; round++) {
      const bytes = round % 2 ? whole.slice(0, roll(whole.length)) : whole.slice();
      if (round % 2 === 0) for (let i = 0; i < 3; i++) bytes[roll(bytes.length)] = roll(256);
      const { raster, problem } = await decodeTiff(bytes);
      if (raster) expect(raster.data.length).toBe(raster.width * raster.height * raster.channels);
      else {
        expect(problem).toMatch(/^[A-Z].*\.$/);
        told++;
      }
    }
    expect(told).toBeGreaterThan(50);
  });
});
