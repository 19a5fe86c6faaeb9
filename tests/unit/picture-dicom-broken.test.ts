import { constants, deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { decodeDicom } from '../../shared/picture/decode-dicom.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { encapsulated, pictureFile, syntaxes, type PixelLayout } from './picture-dicom-writer.ts';
import { encodedFrame, type Encoding } from './picture-frame-encoders.ts';
import { twelveBitJpeg } from './picture-jpeg-12-bit.ts';
import { knownValues, littleEndian } from './picture-known.ts';

const width = 24;
const height = 16;
const values = Uint8Array.from(knownValues(width, height, 8));
const layout: PixelLayout = {
  width,
  height,
  bitsAllocated: 8,
  more: [{ tag: '00181164', vr: 'DS', value: '0.15\\0.15' }],
};
const coded: readonly [string, Encoding][] = [
  ['1.2.840.10008.1.2.5', 'rle'],
  ['1.2.840.10008.1.2.4.50', 'jpeg'],
  ['1.2.840.10008.1.2.4.70', 'jpeg-lossless'],
  ['1.2.840.10008.1.2.4.80', 'jpeg-ls'],
  ['1.2.840.10008.1.2.4.90', 'jpeg-2000'],
];

async function fileOf(uid: string, encoding: Encoding): Promise<Uint8Array> {
  return pictureFile(
    uid,
    layout,
    encapsulated([await encodedFrame(encoding, { width, height, bitsStored: 8, values })]),
    'OB',
  );
}

/** Numbers that look random and are the same each time (Lehmer's generator). */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48271) % 2147483647;
    return state % below;
  };
}

/** Shown at its true size, or a sentence: nothing else may come of a damaged file. */
async function survives(bytes: Uint8Array): Promise<'shown' | 'told'> {
  const facts = readPictureInMemory(bytes);
  if (facts.problem !== null) expect(facts.problem).toMatch(/^[A-Z].*\.$/s);
  const { raster, problem } = await decodeDicom(bytes);
  if (raster) {
    expect(raster.data.length).toBe(raster.width * raster.height * raster.channels);
    return 'shown';
  }
  expect(problem).toMatch(/^[A-Z].*\.$/s);
  return 'told';
}

describe('cut short', () => {
  it.each([
    ['native', syntaxes.explicit],
    ['deflated', syntaxes.deflated],
  ] as const)('%s: at each length a sentence, and never half a picture', async (_, syntax) => {
    const whole = pictureFile(syntax, { ...layout, width: 6, height: 4 }, values.subarray(0, 24), 'OB');
    expect(await survives(whole)).toBe('shown');
    // A deflated stream may be whole one byte before the file's end, which is then filling.
    for (let length = 0; length < whole.length - 2; length++)
      expect([length, await survives(whole.subarray(0, length))]).toEqual([length, 'told']);
  });

  it.each(coded)('%s (%s): a file that ends anywhere in its picture', async (uid, encoding) => {
    const whole = await fileOf(uid, encoding);
    expect(await survives(whole)).toBe('shown');
    for (let length = whole.length - 9; length > 132; length -= 7)
      expect(await survives(whole.subarray(0, length))).toBe('told');
  });

  it.each(coded)('%s (%s): a stream that ends early within whole fragments', async (uid, encoding) => {
    const frame = await encodedFrame(encoding, { width, height, bitsStored: 8, values });
    for (const share of [0, 0.1, 0.5, 0.9]) {
      expect(
        await survives(
          pictureFile(uid, layout, encapsulated([frame.subarray(0, Math.floor(frame.length * share))]), 'OB'),
        ),
      ).toBe('told');
    }
  });
});

describe('bytes changed at random: a picture or a sentence, never a throw', () => {
  it.each([
    [syntaxes.explicit, null],
    [syntaxes.implicit, null],
    [syntaxes.big, null],
    [syntaxes.deflated, null],
    ...coded,
  ] as const)('%s (%s)', { timeout: 600_000 }, async (uid, encoding) => {
    const whole = encoding ? await fileOf(uid, encoding) : pictureFile(uid, layout, values, 'OB');
    const roll = dice(20250101);
    const outcomes = { shown: 0, told: 0 };
    for (let round = 0; round < 120; round++) {
      const bytes = whole.slice();
      for (let changes = 1 + roll(4); changes > 0; changes--) bytes[132 + roll(bytes.length - 132)] = roll(256);
      outcomes[await survives(bytes)]++;
    }
    expect(outcomes.shown).toBeGreaterThan(0);
    expect(outcomes.told).toBeGreaterThan(0);
  });

  it('noise behind the beginning of each kind', async () => {
    const roll = dice(7);
    for (const start of [
      '\x89PNG\r\n\x1a\n',
      '\xff\xd8\xff\xe1',
      'RIFF\x10\0\0\0WEBPVP8X',
      'GIF89a',
      'II*\0',
      'MM\0*',
      `${'\0'.repeat(128)}DICM`,
    ]) {
      for (let round = 0; round < 50; round++) {
        const bytes = Uint8Array.from({ length: 400 }, (_, i) => (i < start.length ? start.charCodeAt(i) : roll(256)));
        await survives(bytes);
      }
    }
  });
});

describe('JPEG of 12 bits, which is decoded here', () => {
  const uid = '1.2.840.10008.1.2.4.51';
  const frame = twelveBitJpeg(knownValues(width, height, 12), width, height, { restartInterval: 2 });
  const wrapped = (stream: Uint8Array): Uint8Array =>
    pictureFile(uid, { width, height, bitsStored: 12 }, encapsulated([stream]), 'OB');

  it('with its coded data cut anywhere and an end marker put behind, a sentence', async () => {
    expect(await survives(wrapped(frame))).toBe('shown');
    for (let length = 4; length < frame.length - 2; length += 5) {
      expect(await survives(wrapped(Uint8Array.from([...frame.subarray(0, length), 0xff, 0xd9])))).toBe('told');
    }
  });

  it('bytes changed at random: a picture or a sentence', async () => {
    const roll = dice(4711);
    const outcomes = { shown: 0, told: 0 };
    for (let round = 0; round < 300; round++) {
      const bytes = frame.slice();
      for (let changes = 1 + roll(4); changes > 0; changes--) bytes[2 + roll(bytes.length - 4)] = roll(256);
      outcomes[await survives(wrapped(bytes))]++;
    }
    expect(outcomes.told).toBeGreaterThan(20);
  });
});

describe('sizes that the bytes cannot hold are refused before memory is asked for', () => {
  it.each(coded)('%s: 8000 by 8000 pixels in a few hundred bytes', async (uid, encoding) => {
    const frame = await encodedFrame(encoding, { width, height, bitsStored: 8, values });
    const before = process.memoryUsage().arrayBuffers;
    const { problem } = await decodeDicom(
      pictureFile(uid, { ...layout, width: 8000, height: 8000 }, encapsulated([frame]), 'OB'),
    );
    expect(problem).toMatch(/only \d+ bytes of picture are there/);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(8e6);
  });

  it('native, 60000 by 60000', async () => {
    expect(
      (await decodeDicom(pictureFile(syntaxes.explicit, { ...layout, width: 60_000, height: 60_000 }, values, 'OB')))
        .problem,
    ).toMatch(/larger than any radiograph/);
    expect(
      (await decodeDicom(pictureFile(syntaxes.explicit, { ...layout, width: 8000, height: 8000 }, values, 'OB')))
        .problem,
    ).toMatch(/cut short/);
  });

  it('a stream that is itself larger than its header says', async () => {
    const frame = await encodedFrame('jpeg-2000', { width, height, bitsStored: 8, values });
    const grown = frame.slice();
    new DataView(grown.buffer).setUint32(8, 60_000);
    expect(
      (await decodeDicom(pictureFile('1.2.840.10008.1.2.4.90', layout, encapsulated([grown]), 'OB'))).problem,
    ).toMatch(/contradicts itself/);
  });

  it('a deflated data set that unpacks to gigabytes', { timeout: 600_000 }, async () => {
    const plain = pictureFile(syntaxes.deflated, layout, values, 'OB');
    const meta = plain.subarray(0, 132 + 12 + new DataView(plain.buffer).getUint32(140, true));
    // A flushed block can be repeated: a mebibyte of zeros a kibibyte, four thousand times.
    const block = deflateRawSync(new Uint8Array(2 ** 20), { finishFlush: constants.Z_FULL_FLUSH });
    const bomb = Buffer.concat(Array<Buffer>(4096).fill(block));
    const bytes = new Uint8Array(Buffer.concat([meta, bomb]));
    expect(readPictureInMemory(bytes).problem).toMatch(/more parts than/);
    expect((await decodeDicom(bytes)).problem).toMatch(/more parts than/);
  });

  it('16-bit values of a picture that is complete are not refused', async () => {
    expect(
      await survives(
        pictureFile(syntaxes.explicit, { width, height, bitsStored: 12 }, littleEndian(knownValues(width, height, 12))),
      ),
    ).toBe('shown');
  });
});
