import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, type TestContext } from 'vitest';
import { decodeDicom } from '../../shared/picture/decode-dicom.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { decodeJpeg } from '../../shared/picture/decoders/jpeg.ts';
import { openDicom } from '../../shared/picture/dicom-file.ts';
import { firstFrame } from '../../shared/picture/dicom-frame.ts';
import { describeImage } from '../../shared/picture/dicom-image.ts';
import { decodedByAnother } from './picture-frame-encoders.ts';
import { largestDifference, stretched } from './picture-known.ts';

/** Twelve small files of the pydicom project (MIT licence), which are not a part of this repository. */
const folder = join(import.meta.dirname, '..', '..', '..', 'shared', 'dicom');
const absent = !existsSync(folder);
const why = 'not run: the public DICOM files are not in ../shared/dicom beside the checkout';

function needed(context: TestContext): void {
  context.skip(absent, why);
}

function bytesOf(name: string): Uint8Array {
  return new Uint8Array(readFileSync(join(folder, name)));
}

async function shades(name: string): Promise<readonly number[]> {
  const { raster, problem } = await decodeDicom(bytesOf(name));
  if (!raster) throw new Error(`${name}: ${problem}`);
  return Array.from(raster.data);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe(absent ? `public DICOM files (${why})` : 'public DICOM files', () => {
  it('there are twelve', (context) => {
    needed(context);
    expect(readdirSync(folder).filter((name) => name.endsWith('.dcm'))).toHaveLength(12);
  });

  it.for<[string, number, number, number | null]>([
    ['CT_small.dcm', 128, 128, 0.661468],
    ['JPEG-lossy.dcm', 256, 1024, 2.26],
    ['MR_small.dcm', 64, 64, 0.3125],
    ['MR_small_RLE.dcm', 64, 64, 0.3125],
    ['MR_small_implicit.dcm', 64, 64, 0.3125],
    ['MR_small_jp2klossless.dcm', 64, 64, 0.3125],
    ['MR_small_jpeg_ls_lossless.dcm', 64, 64, 0.3125],
    ['MR_truncated.dcm', 64, 64, 0.3125],
    ['SC_rgb_jpeg_gdcm.dcm', 100, 100, 1],
    ['SC_rgb_small_odd.dcm', 3, 3, 33.333333],
    ['badVR.dcm', 10, 10, 10],
    ['image_dfl.dcm', 512, 512, null],
  ])('%s: %i by %i, spacing %s mm', ([name, width, height, mmPerPx], context) => {
    needed(context);
    const facts = readPictureInMemory(bytesOf(name));
    expect(facts).toMatchObject({ kind: 'dicom', width, height, problem: null });
    expect(facts.spacing?.mmPerPx ?? null).toBe(mmPerPx);
  });

  it('CT_small: 16-bit values, stretched from darkest to brightest', async (context) => {
    needed(context);
    const bytes = bytesOf('CT_small.dcm');
    const at = findPixels(bytes, 128 * 128 * 2);
    const view = new DataView(bytes.buffer, bytes.byteOffset + at);
    const values = Array.from({ length: 128 * 128 }, (_, i) => view.getInt16(2 * i, true));
    expect(await shades('CT_small.dcm')).toEqual(stretched(values));
  });

  it.for(['MR_small_RLE.dcm', 'MR_small_implicit.dcm', 'MR_small_jp2klossless.dcm', 'MR_small_jpeg_ls_lossless.dcm'])(
    '%s shows the same picture as MR_small.dcm',
    async (name, context) => {
      needed(context);
      const plain = await shades('MR_small.dcm');
      expect(new Set(plain).size).toBeGreaterThan(100);
      expect(await shades(name)).toEqual(plain);
    },
  );

  it('SC_rgb_jpeg_gdcm: ten bars of the colours that the pydicom tests give for it', async (context) => {
    needed(context);
    const colours = await shades('SC_rgb_jpeg_gdcm.dcm');
    const bars = [5, 15, 25, 35, 45, 55, 65, 75, 85, 95].map((row) =>
      colours.slice((row * 100 + 50) * 3, (row * 100 + 50) * 3 + 3),
    );
    expect(bars).toEqual([
      [255, 0, 0],
      [255, 128, 128],
      [0, 255, 0],
      [128, 255, 128],
      [0, 0, 255],
      [128, 128, 255],
      [0, 0, 0],
      [64, 64, 64],
      [192, 192, 192],
      [255, 255, 255],
    ]);
  });

  it('SC_rgb_small_odd: three rows of one colour each, an odd number of bytes', async (context) => {
    needed(context);
    const colours = await shades('SC_rgb_small_odd.dcm');
    expect(colours).toEqual(
      [
        [166, 141, 52],
        [63, 87, 176],
        [158, 158, 158],
      ].flatMap((colour) => [...colour, ...colour, ...colour]),
    );
  });

  it('JPEG-lossy (12 bits, extended): each value within one of what a C library decodes, and no shift of the whole', async (context) => {
    needed(context);
    const file = openDicom(bytesOf('JPEG-lossy.dcm'));
    const image = describeImage(file);
    const frame = firstFrame(file, image, true);
    const { values } = decodeJpeg(frame, image);
    const other = await decodedByAnother(frame, image.width, image.height, image.bitsStored);
    expect(values.length).toBe(256 * 1024);
    expect(largestDifference(values, other)).toBeLessThanOrEqual(1);
    expect(Math.abs(mean(Array.from(values, (value, i) => value - (other[i] ?? NaN))))).toBeLessThan(0.05);
    // The value that the pydicom tests give for this pixel.
    expect(values[420 * 256 + 140]).toBe(244);
  });

  it('image_dfl (deflated): bright and dark in balance', async (context) => {
    needed(context);
    expect(mean(await shades('image_dfl.dcm'))).toBeCloseTo(127.1, 0);
  });

  it('MR_truncated: its picture is refused with the reason', async (context) => {
    needed(context);
    expect((await decodeDicom(bytesOf('MR_truncated.dcm'))).problem).toMatch(/cut short.*8130 of 8192/);
  });

  it('badVR: a value representation that is none does not hide the picture', async (context) => {
    needed(context);
    expect(await shades('badVR.dcm')).toHaveLength(100);
  });
});

/** Where an explicit little endian element (7FE0,0010) of OW with the given length has its value. */
function findPixels(bytes: Uint8Array, length: number): number {
  const head = [
    0xe0,
    0x7f,
    0x10,
    0x00,
    0x4f,
    0x57,
    0,
    0,
    length & 255,
    (length >> 8) & 255,
    (length >> 16) & 255,
    length >>> 24,
  ];
  for (let at = 0; at + 12 <= bytes.length; at++) if (head.every((byte, i) => bytes[at + i] === byte)) return at + 12;
  throw new Error('no pixel data');
}
