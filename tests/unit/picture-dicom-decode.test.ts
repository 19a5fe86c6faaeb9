import { describe, expect, it } from 'vitest';
import { decodeDicom } from '../../shared/picture/decode-dicom.ts';
import { transferSyntaxes } from '../../shared/picture/transfer-syntaxes.ts';
import type { Raster } from '../../shared/picture/raster.ts';
import { encapsulated, pictureFile, syntaxes, type Element, type PixelLayout } from './picture-dicom-writer.ts';
import { encodedFrame, type Encoding } from './picture-frame-encoders.ts';
import { twelveBitJpeg } from './picture-jpeg-12-bit.ts';
import { bigEndian, knownColours, knownValues, largestDifference, littleEndian, stretched } from './picture-known.ts';

const width = 45;
const height = 32;
const grey12 = knownValues(width, height, 12);
const grey16 = knownValues(width, height, 16);
const grey8 = Uint8Array.from(knownValues(width, height, 8));
const colours = knownColours(width, height);
const layout12: PixelLayout = { width, height, bitsStored: 12 };

async function shown(file: Uint8Array): Promise<Raster> {
  const { raster, problem } = await decodeDicom(file);
  if (!raster) throw new Error(problem);
  return raster;
}

async function complaint(file: Uint8Array): Promise<string> {
  const { raster, problem } = await decodeDicom(file);
  if (raster) throw new Error('was shown');
  return problem;
}

describe('pictures stored pixel by pixel', () => {
  it.each([
    ['Implicit VR Little Endian', syntaxes.implicit, littleEndian],
    ['Explicit VR Little Endian', syntaxes.explicit, littleEndian],
    ['Deflated Explicit VR Little Endian', syntaxes.deflated, littleEndian],
    ['Explicit VR Big Endian', syntaxes.big, bigEndian],
  ] as const)('%s, 12 bits in 16', async (_, syntax, order) => {
    const raster = await shown(pictureFile(syntax, layout12, order(grey12)));
    expect([raster.width, raster.height, raster.channels]).toEqual([width, height, 1]);
    expect(Array.from(raster.data)).toEqual(stretched(grey12));
  });

  it('8 bits in a file of an odd number of pixels', async () => {
    const values = Uint8Array.from({ length: 45 * 31 }, (_, i) => i % 251);
    const raster = await shown(
      pictureFile(syntaxes.explicit, { width: 45, height: 31, bitsAllocated: 8 }, values, 'OB'),
    );
    expect(Array.from(raster.data)).toEqual(stretched(values));
  });

  it('8 bits in big endian words: the first pixel is in the low byte (PS3.5 8.1.1)', async () => {
    const swapped = Uint8Array.from(grey8, (_, i) => grey8[i ^ 1] ?? 0);
    const raster = await shown(pictureFile(syntaxes.big, { width, height, bitsAllocated: 8 }, swapped, 'OW'));
    expect(Array.from(raster.data)).toEqual(stretched(grey8));
  });

  it('colours beside each other and colour after colour give the same picture', async () => {
    const planar = Uint8Array.from(
      { length: colours.length },
      (_, i) => colours[(i % (width * height)) * 3 + Math.floor(i / (width * height))] ?? 0,
    );
    const mixed = await shown(
      pictureFile(syntaxes.explicit, { width, height, bitsAllocated: 8, samples: 3 }, colours, 'OB'),
    );
    const apart = await shown(
      pictureFile(syntaxes.explicit, { width, height, bitsAllocated: 8, samples: 3, planar: 1 }, planar, 'OB'),
    );
    expect(mixed.channels).toBe(3);
    expect(Array.from(mixed.data)).toEqual(Array.from(colours));
    expect(Array.from(apart.data)).toEqual(Array.from(colours));
  });

  it('overlay bits above the stored ones are cut off, and stored bits need not begin at bit 0', async () => {
    const overlaid = grey12.map((value, i) => value | (i % 3 === 0 ? 0x8000 : 0));
    expect(Array.from((await shown(pictureFile(syntaxes.explicit, layout12, littleEndian(overlaid)))).data)).toEqual(
      stretched(grey12),
    );
    const shifted = grey12.map((value) => value << 4);
    expect(
      Array.from(
        (await shown(pictureFile(syntaxes.explicit, { ...layout12, highBit: 15 }, littleEndian(shifted)))).data,
      ),
    ).toEqual(stretched(grey12));
  });

  it('signed values of 12 bits', async () => {
    const signed = Int16Array.from(grey12, (value) => value - 2048);
    const raster = await shown(
      pictureFile(
        syntaxes.explicit,
        { ...layout12, signed: true },
        littleEndian(Uint16Array.from(signed, (value) => value & 0xfff)),
      ),
    );
    expect(Array.from(raster.data)).toEqual(stretched(signed));
  });

  it('32 bits', async () => {
    const bytes = new Uint8Array(width * height * 4);
    grey16.forEach((value, i) => new DataView(bytes.buffer).setUint32(4 * i, value * 50_000, true));
    const raster = await shown(pictureFile(syntaxes.explicit, { width, height, bitsAllocated: 32 }, bytes));
    expect(Array.from(raster.data)).toEqual(stretched(grey16));
  });

  it('a palette: each index becomes its colour', async () => {
    const tables = ['1', '2', '3'].flatMap((channel): Element[] => [
      { tag: `0028110${channel}`, vr: 'US', value: [4, 0, 16] },
      { tag: `0028120${channel}`, vr: 'OW', value: [0, 1, 2, 3].map((index) => (index * 20 + Number(channel)) << 8) },
    ]);
    const indices = Uint8Array.of(0, 1, 2, 3);
    const raster = await shown(
      pictureFile(
        syntaxes.explicit,
        { width: 2, height: 2, bitsAllocated: 8, photometric: 'PALETTE COLOR', more: tables },
        indices,
        'OB',
      ),
    );
    expect(Array.from(raster.data)).toEqual([1, 2, 3, 21, 22, 23, 41, 42, 43, 61, 62, 63]);
  });

  it('luma and chroma, full and halved across, become colours (PS3.3 C.7.6.3.1.2)', async () => {
    // Pure red of BT.601 is 76, 85, 255 to the nearest whole.
    const full = await shown(
      pictureFile(
        syntaxes.explicit,
        { width: 2, height: 1, bitsAllocated: 8, samples: 3, photometric: 'YBR_FULL' },
        Uint8Array.of(76, 85, 255, 255, 128, 128),
        'OB',
      ),
    );
    expect(largestDifference(full.data, [255, 0, 0, 255, 255, 255])).toBeLessThanOrEqual(1);
    const halved = await shown(
      pictureFile(
        syntaxes.explicit,
        { width: 2, height: 1, bitsAllocated: 8, samples: 3, photometric: 'YBR_FULL_422' },
        Uint8Array.of(76, 76, 85, 255),
        'OB',
      ),
    );
    expect(largestDifference(halved.data, [255, 0, 0, 255, 0, 0])).toBeLessThanOrEqual(1);
  });

  it('of several frames the first', async () => {
    const later = grey12.map((value) => 4095 - value);
    const raster = await shown(
      pictureFile(
        syntaxes.explicit,
        { ...layout12, frames: 2 },
        new Uint8Array([...littleEndian(grey12), ...littleEndian(later)]),
      ),
    );
    expect(Array.from(raster.data)).toEqual(stretched(grey12));
  });
});

describe('from stored value to shade', () => {
  const ramp = Uint16Array.from({ length: 256 }, (_, i) => i * 16);
  const ramps = (more: readonly Element[], extra: Partial<PixelLayout> = {}): Uint8Array =>
    pictureFile(syntaxes.explicit, { width: 16, height: 16, bitsStored: 12, more, ...extra }, littleEndian(ramp));
  const text = (tag: string, value: string, vr = 'DS'): Element => ({ tag, vr, value });
  const window = [text('00281050', '2048'), text('00281051', '1000')];

  it('MONOCHROME1 is turned round', async () => {
    const plain = await shown(ramps([]));
    const inverted = await shown(ramps([], { photometric: 'MONOCHROME1' }));
    expect(Array.from(inverted.data)).toEqual(Array.from(plain.data, (shade) => 255 - shade));
    expect(inverted.data[0]).toBe(255);
  });

  it('a linear window by the formula of PS3.3 C.11.2.1.2.1', async () => {
    const expected = Array.from(ramp, (x) => {
      if (x <= 2048 - 0.5 - 999 / 2) return 0;
      if (x > 2048 - 0.5 + 999 / 2) return 255;
      return Math.round(((x - 2047.5) / 999 + 0.5) * 255);
    });
    expect(Array.from((await shown(ramps(window))).data)).toEqual(expected);
    expect(new Set(expected).size).toBeGreaterThan(50);
  });

  it('LINEAR_EXACT and SIGMOID by theirs (C.11.2.1.3)', async () => {
    const exact = await shown(ramps([...window, text('00281056', 'LINEAR_EXACT', 'CS')]));
    expect(Array.from(exact.data)).toEqual(
      Array.from(ramp, (x) => Math.round(255 * Math.min(1, Math.max(0, (x - 2048) / 1000 + 0.5)))),
    );
    const sigmoid = await shown(ramps([...window, text('00281056', 'SIGMOID', 'CS')]));
    expect(Array.from(sigmoid.data)).toEqual(
      Array.from(ramp, (x) => Math.round(255 / (1 + Math.exp((-4 * (x - 2048)) / 1000)))),
    );
  });

  it('the first of several windows', async () => {
    const several = await shown(ramps([text('00281050', '2048\\100'), text('00281051', '1000\\50')]));
    expect(Array.from(several.data)).toEqual(Array.from((await shown(ramps(window))).data));
  });

  it('slope and intercept come before the window (C.11.1)', async () => {
    const rescaled = await shown(
      ramps([text('00281050', '3096'), text('00281051', '2000'), text('00281052', '-1000'), text('00281053', '2')]),
    );
    const expected = Array.from(ramp, (x) =>
      Math.round(255 * Math.min(1, Math.max(0, (2 * x - 1000 - 3095.5) / 1999 + 0.5))),
    );
    expect(Array.from(rescaled.data)).toEqual(expected);
  });

  it('a falling slope turns the stretch round as well', async () => {
    const falling = await shown(ramps([text('00281052', '4095'), text('00281053', '-1')]));
    expect([falling.data[0], falling.data[255]]).toEqual([255, 0]);
  });

  it('a table of shades where there is no window (C.11.2.1.1)', async () => {
    const table: Element[] = [
      { tag: '00283002', vr: 'US', value: [4096, 0, 8] },
      { tag: '00283006', vr: 'OW', value: Array.from({ length: 4096 }, (_, i) => 255 - (i >> 4)) },
    ];
    const raster = await shown(ramps([{ tag: '00283010', vr: 'SQ', value: [table] }]));
    expect(Array.from(raster.data)).toEqual(Array.from(ramp, (x) => 255 - (x >> 4)));
  });

  it('padding does not stretch the range (C.7.5.1.1.2)', async () => {
    const padded = Uint16Array.from([4000, 100, 150, 200]);
    const file = (more: Element[]): Uint8Array =>
      pictureFile(syntaxes.explicit, { width: 2, height: 2, bitsStored: 12, more }, littleEndian(padded));
    expect(Array.from((await shown(file([{ tag: '00280120', vr: 'US', value: [4000] }]))).data)).toEqual([
      255, 0, 128, 255,
    ]);
    expect((await shown(file([]))).data[3]).toBeLessThan(10);
  });
});

describe('compressed pictures', () => {
  interface Case {
    readonly uid: string;
    readonly encoding: Encoding;
    readonly bits: 8 | 12 | 16;
    readonly within: number;
    readonly parameters?: Record<string, number | boolean>;
  }
  const lossless = (uid: string, encoding: Encoding, parameters?: Case['parameters']): Case[] =>
    ([8, 12, 16] as const).map((bits) => ({ uid, encoding, bits, within: 0, parameters }));
  const root = '1.2.840.10008.1.2';
  const cases: Case[] = [
    ...lossless(`${root}.5`, 'rle'),
    { uid: `${root}.4.50`, encoding: 'jpeg', bits: 8, within: 12 },
    { uid: `${root}.4.51`, encoding: 'jpeg', bits: 8, within: 12 },
    ...[1, 2, 3, 4, 5, 6, 7].flatMap((predictor) => lossless(`${root}.4.57`, 'jpeg-lossless', { predictor })),
    ...lossless(`${root}.4.70`, 'jpeg-lossless'),
    ...lossless(`${root}.4.80`, 'jpeg-ls'),
    { uid: `${root}.4.81`, encoding: 'jpeg-ls', bits: 8, within: 3, parameters: { lossy: true, allowedLossyError: 2 } },
    {
      uid: `${root}.4.81`,
      encoding: 'jpeg-ls',
      bits: 12,
      within: 1,
      parameters: { lossy: true, allowedLossyError: 2 },
    },
    ...lossless(`${root}.4.90`, 'jpeg-2000'),
    { uid: `${root}.4.91`, encoding: 'jpeg-2000', bits: 8, within: 20, parameters: { lossy: true, rate: 2 } },
    { uid: `${root}.4.91`, encoding: 'jpeg-2000', bits: 12, within: 20, parameters: { lossy: true, rate: 5 } },
    ...lossless(`${root}.4.201`, 'htj2k'),
    ...lossless(`${root}.4.202`, 'htj2k', { progressionOrder: 2 }),
    { uid: `${root}.4.203`, encoding: 'htj2k', bits: 12, within: 20, parameters: { lossy: true } },
  ];
  const values = { 8: grey8, 12: grey12, 16: grey16 };

  it.each(cases)('$encoding $bits bits, $uid $parameters', async ({ uid, encoding, bits, within, parameters }) => {
    const frame = await encodedFrame(encoding, { width, height, bitsStored: bits, values: values[bits] }, parameters);
    // A window over the whole range, so that the shades are those of the values and a lost end of the range shows.
    const more: Element[] = [
      { tag: '00281050', vr: 'DS', value: String(2 ** (bits - 1)) },
      { tag: '00281051', vr: 'DS', value: String(2 ** bits) },
    ];
    const raster = await shown(
      pictureFile(
        uid,
        { width, height, bitsAllocated: bits === 8 ? 8 : 16, bitsStored: bits, more },
        encapsulated([frame]),
        'OB',
      ),
    );
    const expected = Array.from(values[bits], (value) => Math.round((255 * value) / (2 ** bits - 1)));
    const difference = largestDifference(raster.data, expected);
    expect(difference).toBeLessThanOrEqual(within);
  });

  it.each([0, 1, 7])(
    'JPEG of 12 bits, restart interval %i: every value, not only every shade',
    async (restartInterval) => {
      // A window of 256 values makes a shade of each, so that a shift of the whole picture by a value or two would be seen.
      const frame = twelveBitJpeg(grey12, width, height, { step: 1, restartInterval });
      for (const centre of [128, 1000, 2048, 3000]) {
        const more: Element[] = [
          { tag: '00281050', vr: 'DS', value: String(centre + 0.5) },
          { tag: '00281051', vr: 'DS', value: '256' },
        ];
        const { data } = await shown(pictureFile(`${root}.4.51`, { ...layout12, more }, encapsulated([frame]), 'OB'));
        const expected = Array.from(grey12, (value) => Math.min(255, Math.max(0, value - (centre - 127.5))));
        expect(largestDifference(data, expected)).toBeLessThanOrEqual(3);
        const inside = expected.flatMap((value, i) => (value > 3 && value < 252 ? [(data[i] ?? NaN) - value] : []));
        expect(inside.length).toBeGreaterThan(20);
        expect(Math.abs(inside.reduce((sum, error) => sum + error, 0) / inside.length)).toBeLessThan(0.75);
      }
    },
  );

  it('what overshoots the stored bits after a loss is white, not black', async () => {
    const white = new Uint16Array(width * height).fill(4095);
    white.set(grey12.subarray(0, 600));
    const frame = await encodedFrame('jpeg-ls', {
      width,
      height,
      bitsStored: 16,
      values: white.map((value) => (value === 4095 ? 4098 : value)),
    });
    const { data } = await shown(
      pictureFile(
        `${root}.4.81`,
        {
          ...layout12,
          more: [
            { tag: '00281050', vr: 'DS', value: '2048' },
            { tag: '00281051', vr: 'DS', value: '4096' },
          ],
        },
        encapsulated([frame]),
        'OB',
      ),
    );
    expect(data[data.length - 1]).toBe(255);
  });

  it('a point transform is refused rather than shown too dark', async () => {
    const frame = await encodedFrame(
      'jpeg-lossless',
      { width, height, bitsStored: 12, values: grey12 },
      { pointTransform: 2 },
    );
    expect(await complaint(pictureFile(`${root}.4.70`, layout12, encapsulated([frame]), 'OB'))).toMatch(
      /point transform/,
    );
  });

  it('a lossy frame differs from its source, so the tolerance above is one that is used', async () => {
    const frame = await encodedFrame('jpeg', { width, height, bitsStored: 8, values: grey8 });
    const raster = await shown(
      pictureFile(`${root}.4.50`, { width, height, bitsAllocated: 8 }, encapsulated([frame]), 'OB'),
    );
    expect(largestDifference(raster.data, stretched(grey8))).toBeGreaterThan(0);
  });

  it.each([
    ['rle', `${root}.5`, 'RGB', 0],
    ['jpeg-lossless', `${root}.4.70`, 'RGB', 0],
    ['jpeg-ls', `${root}.4.80`, 'RGB', 0],
    ['jpeg-2000', `${root}.4.90`, 'RGB', 0],
    ['jpeg', `${root}.4.50`, 'RGB', 40],
  ] as const)('colour: %s, %s', async (encoding, uid, photometric, within) => {
    const frame = await encodedFrame(encoding, {
      width,
      height,
      bitsStored: 8,
      values: colours,
      samples: 3,
      photometric,
    });
    const raster = await shown(
      pictureFile(uid, { width, height, bitsAllocated: 8, samples: 3, photometric }, encapsulated([frame]), 'OB'),
    );
    expect(raster.channels).toBe(3);
    expect(largestDifference(raster.data, colours)).toBeLessThanOrEqual(within);
  });

  it('of several frames the first: by the offset table, one fragment each, or several fragments each', async () => {
    const later = Uint8Array.from(grey8, (value) => 255 - value);
    const uid = `${root}.4.80`;
    const first = await encodedFrame('jpeg-ls', { width, height, bitsStored: 8, values: grey8 });
    const second = await encodedFrame('jpeg-ls', { width, height, bitsStored: 8, values: later });
    const even = (bytes: Uint8Array): number => bytes.length + (bytes.length % 2);
    const halves = [first.subarray(0, 100), first.subarray(100)];
    const table = [0, 16 + even(halves[0] ?? first) + even(halves[1] ?? first)];
    const layout: PixelLayout = { width, height, bitsAllocated: 8, frames: 2 };
    for (const pixels of [
      encapsulated([...halves, second], table),
      encapsulated([first, second]),
      encapsulated([...halves, second]),
    ]) {
      expect(Array.from((await shown(pictureFile(uid, layout, pixels, 'OB'))).data)).toEqual(stretched(grey8));
    }
  });

  it('a single frame in several fragments', async () => {
    const frame = await encodedFrame('jpeg-2000', { width, height, bitsStored: 12, values: grey12 });
    const pixels = encapsulated([frame.subarray(0, 200), frame.subarray(200, 300), frame.subarray(300)]);
    expect(Array.from((await shown(pictureFile(`${root}.4.90`, layout12, pixels, 'OB'))).data)).toEqual(
      stretched(grey12),
    );
  });
});

describe('what is not shown, and why', () => {
  it.each(
    transferSyntaxes
      .filter(({ load }) => load === null)
      .map(({ uid, name, encapsulated: coded }) => [uid, name, coded] as const),
  )('%s is named: %s', async (uid, name, coded) => {
    const said = await complaint(
      pictureFile(uid, layout12, coded ? encapsulated([Uint8Array.of(1, 2)]) : new Uint8Array(2), 'OB'),
    );
    expect(said).toContain(name);
    expect(said).toContain(uid);
  });

  it('a transfer syntax that nobody knows is given by its number', async () => {
    expect(await complaint(pictureFile('1.2.3.4', layout12, littleEndian(grey12)))).toContain('1.2.3.4');
  });

  it.each<[string, PixelLayout, RegExp]>([
    ['1 bit a pixel', { width, height, bitsAllocated: 1 }, /1 bits a value/],
    ['four samples', { width, height, bitsAllocated: 8, samples: 4, photometric: 'RGB' }, /4 values a pixel/],
    ['more bits stored than there is room for', { width, height, bitsStored: 17 }, /contradicts itself/],
    [
      'unknown colours',
      { width, height, bitsAllocated: 8, samples: 3, photometric: 'YBR_PARTIAL_420' },
      /YBR_PARTIAL_420/,
    ],
    ['grey called colour', { width, height, bitsAllocated: 8, samples: 1, photometric: 'RGB' }, /contradicts itself/],
    [
      'a palette picture without a palette',
      { width, height, bitsAllocated: 8, photometric: 'PALETTE COLOR' },
      /palette/,
    ],
  ])('%s', async (_, layout, said) => {
    expect(await complaint(pictureFile(syntaxes.explicit, layout, new Uint8Array(width * height * 4), 'OB'))).toMatch(
      said,
    );
  });

  it('a header without a picture, and a file that is no DICOM file', async () => {
    expect(await complaint(pictureFile(syntaxes.explicit, layout12, null))).toMatch(/no picture/);
    expect(await complaint(new Uint8Array(10))).toMatch(/cannot be read/);
  });

  it('a compressed picture of another size than the header says', async () => {
    const frame = await encodedFrame('jpeg-ls', { width, height, bitsStored: 12, values: grey12 });
    expect(
      await complaint(
        pictureFile('1.2.840.10008.1.2.4.80', { ...layout12, height: height - 1 }, encapsulated([frame]), 'OB'),
      ),
    ).toMatch(/45 by 31 .* 45 by 32/);
  });
});
