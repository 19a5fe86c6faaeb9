import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { describe, expect, it, type TestContext } from 'vitest';
import { colourShades } from '../../shared/picture/colour-shades.ts';
import { decodeDicom } from '../../shared/picture/decode-dicom.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { decodeJpeg } from '../../shared/picture/decoders/jpeg.ts';
import { openDicom } from '../../shared/picture/dicom-file.ts';
import { firstFrame } from '../../shared/picture/dicom-frame.ts';
import { describeImage, type DicomImage } from '../../shared/picture/dicom-image.ts';
import type { Samples } from '../../shared/picture/frame-decoder.ts';
import { transferSyntax } from '../../shared/picture/transfer-syntaxes.ts';
import { unpackedPackage } from '../host/debian-package.ts';
import { decodedByAnother } from './picture-frame-encoders.ts';
import { largestDifference, stretched } from './picture-known.ts';
import { publicFiles, refusedWhole } from './picture-public-dicom-table.ts';

const tableOf = '2.3.1-1';
const fetched = unpackedPackage('python3-pydicom');
const data = join(fetched.folder ?? '/nowhere', 'usr/lib/python3/dist-packages/pydicom/data');
const folder = join(data, 'test_files');
const absent = fetched.folder === null;
const why = absent ? `not run: ${fetched.why}` : `not run: python3-pydicom ${fetched.version} does not hold it`;

/** Other versions of the package hold other files. */
function needed(context: TestContext, path = folder): void {
  context.skip(!existsSync(path), why);
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
  it(`of version ${tableOf} all are there, and the table tells of each that has a picture`, (context) => {
    context.skip(absent || fetched.version !== tableOf, why);
    const all = dicomFilesIn(data);
    expect(all).toHaveLength(178);
    const told = new Map(publicFiles.map(([name]) => [name, 1]));
    expect(publicFiles.filter(([name]) => !all.includes(name))).toEqual([]);
    for (const name of all.filter((each) => !told.has(each))) {
      const { problem, width } = readPictureInMemory(new Uint8Array(readFileSync(join(data, name))));
      expect([name, problem, width]).toEqual([
        name,
        expect.stringMatching(/holds no picture: it may be|header cannot be read/),
        null,
      ]);
    }
  });

  it.for(publicFiles)('%s: %i by %i pixels of %s mm', async ([name, width, height, mmPerPx, pixels], context) => {
    needed(context, join(data, name));
    const bytes = new Uint8Array(readFileSync(join(data, name)));
    const facts = readPictureInMemory(bytes);
    if (refusedWhole.includes(name)) {
      expect(facts.problem).toMatch(/header cannot be read/);
      return;
    }
    expect(facts).toMatchObject({ kind: 'dicom', width, height, problem: null });
    // Grids of a dose have pixels of 10 mm, which no picture of a foot has: they are read and told, and give no scale.
    const isOfAFoot = mmPerPx !== null && mmPerPx >= 0.005 && mmPerPx <= 5;
    if (!isOfAFoot)
      expect(facts.noSpacing).toMatch(mmPerPx === null ? /^[A-Z].*\.$/ : ` a pixel is ${mmPerPx} mm large`);
    expect(facts.spacing?.mmPerPx ?? null).toBe(isOfAFoot ? mmPerPx : null);
    const { raster, problem } = await decodeDicom(bytes);
    if (pixels instanceof RegExp) {
      expect(problem).toMatch(pixels);
      return;
    }
    expect(raster).toMatchObject({ width, height });
    const { samples, image } = await samplesOf(bytes);
    if (typeof pixels === 'number') expect(crc32(storedBytes(samples, image))).toBe(pixels);
    else {
      const values = Array.from(image.samples === 3 ? colourShades(samples, image) : samples.values);
      const sum = values.reduce((total, value) => total + value, 0);
      expect(Math.abs(sum / pixels.sum - 1)).toBeLessThan(0.003);
    }
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

  it.for([
    'SC_rgb_dcmtk_+eb+cr.dcm',
    'SC_rgb_dcmtk_+eb+cy+n1.dcm',
    'SC_rgb_dcmtk_+eb+cy+n2.dcm',
    'SC_rgb_dcmtk_+eb+cy+np.dcm',
    'SC_rgb_dcmtk_+eb+cy+s2.dcm',
    'SC_rgb_dcmtk_+eb+cy+s4.dcm',
    'SC_rgb_jpeg_dcmtk.dcm',
  ])('%s: the same ten bars, each colour within 4 of 255', async (name, context) => {
    needed(context, join(folder, name));
    const plain = await shades('SC_rgb_rle.dcm');
    const lossy = await shades(name);
    for (const row of [5, 15, 25, 35, 45, 55, 65, 75, 85, 95])
      expect(
        largestDifference(
          lossy.slice((row * 100 + 50) * 3, (row * 100 + 50) * 3 + 3),
          plain.slice((row * 100 + 50) * 3, (row * 100 + 50) * 3 + 3),
        ),
      ).toBeLessThanOrEqual(4);
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

/** Below a folder, those with the mark of DICOM. */
function dicomFilesIn(top: string): string[] {
  return readdirSync(top, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(top, name)).isFile())
    .filter((name) => readFileSync(join(top, name)).toString('latin1', 128, 132) === 'DICM')
    .sort();
}

async function samplesOf(bytes: Uint8Array): Promise<{ samples: Samples; image: DicomImage }> {
  const file = openDicom(bytes);
  const image = describeImage(file);
  const syntax = transferSyntax(file.syntax);
  const decode = await syntax?.load?.();
  if (!syntax || !decode) throw new Error(`no decoder for ${file.syntax}`);
  return { samples: await decode(firstFrame(file, image, syntax.encapsulated), image), image };
}

/** The values with their sign (PS3.5 8.1.1), little endian, each in as many bits as the file gives it. */
function storedBytes({ values, shift }: Samples, image: DicomImage): Uint8Array {
  const size = 2 ** image.bitsStored;
  const each = image.bitsAllocated / 8;
  const count = image.width * image.height * image.samples;
  const bytes = new DataView(new ArrayBuffer(count * each));
  for (let i = 0; i < count; i++) {
    const bits = Math.floor((values[i] ?? NaN) / 2 ** (shift ?? 0)) % size;
    const value = image.signed && bits >= size / 2 ? bits - size : bits;
    if (each === 1) bytes.setUint8(i, value);
    else if (each === 2) bytes.setUint16(2 * i, value, true);
    else bytes.setUint32(4 * i, value, true);
  }
  return new Uint8Array(bytes.buffer);
}

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
