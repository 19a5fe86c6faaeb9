import jpegJs from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import type { ByteSource } from '../../shared/picture/byte-source.ts';
import { readPicture, readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { joined, pictureFile, syntaxes } from './picture-dicom-writer.ts';

const film = 40_000_000;

/** A file that is nowhere in memory as a whole: parts at their places, zeros between them. Counts what is asked of it. */
class SparseFile implements ByteSource {
  readonly size: number;
  readonly #parts: readonly (readonly [at: number, bytes: Uint8Array])[];
  bytesRead = 0;

  constructor(size: number, ...parts: (readonly [at: number, bytes: Uint8Array])[]) {
    this.size = size;
    this.#parts = parts;
  }

  read(start: number, length: number): Promise<Uint8Array> {
    const bytes = new Uint8Array(Math.max(0, Math.min(length, this.size - start)));
    for (const [at, part] of this.#parts)
      for (let i = Math.max(0, start - at); i < part.length && at + i < start + bytes.length; i++)
        bytes[at + i - start] = part[i] ?? 0;
    this.bytesRead += bytes.length;
    return Promise.resolve(bytes);
  }
}

const big = (value: number): Uint8Array => Uint8Array.of(value >>> 24, value >> 16, value >> 8, value);
const little = (value: number): Uint8Array => big(value).reverse();
const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
/** One short of the orientation, big endian, as EXIF and TIFF have it. */
const turned = joined([ascii('MM\0*'), big(8), Uint8Array.of(0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0)]);
const png = joined([ascii('\x89PNG\r\n\x1a\n'), big(13), ascii('IHDR'), big(2000), big(1500), new Uint8Array(9)]);
const jpeg = jpegJs.encode({ width: 16, height: 8, data: new Uint8Array(16 * 8 * 4) }, 80).data;
const spacing = [{ tag: '00181164', vr: 'DS', value: '0.15\\0.15' }] as const;
const header = (syntax: string): Uint8Array =>
  pictureFile(syntax, { width: 4000, height: 5000, more: spacing }, new Uint8Array(2));

describe('a film of 40 MB is not read whole to know its size', () => {
  it.each<[string, SparseFile, number, object]>([
    [
      'PNG with its orientation behind the picture',
      new SparseFile(
        film,
        [0, png],
        [png.length, joined([big(film - 8 - 25 - 60 - 12), ascii('IDAT')])],
        [film - 60, joined([big(turned.length), ascii('eXIf'), turned])],
      ),
      20_000,
      { kind: 'png', width: 1500, height: 2000, orientation: 6 },
    ],
    ['JPEG', new SparseFile(film, [0, jpeg]), 20_000, { kind: 'jpeg', width: 16, height: 8 }],
    [
      'JPEG whose orientation and colour profile come first',
      new SparseFile(
        film,
        [0, joined([Uint8Array.of(0xff, 0xd8, 0xff, 0xe1, 0, 8 + turned.length), ascii('Exif\0\0'), turned])],
        [12 + turned.length, Uint8Array.of(0xff, 0xe2, 0xff, 0xff)],
        [12 + turned.length + 2 + 0xffff, jpeg.subarray(2)],
      ),
      20_000,
      { kind: 'jpeg', width: 8, height: 16, orientation: 6 },
    ],
    [
      'TIFF with its directory at the end',
      new SparseFile(
        film,
        [0, joined([ascii('MM\0*'), big(film - 100)])],
        [
          film - 100,
          joined([
            Uint8Array.of(0, 2),
            joined([Uint8Array.of(1, 0, 0, 4), big(1), big(3000)]),
            joined([Uint8Array.of(1, 1, 0, 4), big(1), big(4000)]),
          ]),
        ],
      ),
      20_000,
      { kind: 'tiff', width: 3000, height: 4000 },
    ],
    [
      'WebP with its orientation behind the picture',
      new SparseFile(
        film,
        [
          0,
          joined([
            ascii('RIFF'),
            little(film - 8),
            ascii('WEBPVP8X'),
            little(10),
            Uint8Array.of(8, 0, 0, 0, 99, 0, 0, 49, 0, 0),
            ascii('VP8 '),
            little(film - 38 - 60),
          ]),
        ],
        [film - 60, joined([ascii('EXIF'), little(turned.length), turned])],
      ),
      20_000,
      { kind: 'webp', width: 50, height: 100, orientation: 6 },
    ],
    [
      'GIF',
      new SparseFile(film, [0, joined([ascii('GIF89a'), Uint8Array.of(9, 0, 8, 0)])]),
      20_000,
      { kind: 'gif', width: 9, height: 8 },
    ],
    ...Object.entries(syntaxes)
      .filter(([name]) => name !== 'deflated')
      .map(([name, syntax]): [string, SparseFile, number, object] => [
        `DICOM, ${name}`,
        new SparseFile(film, [0, header(syntax)]),
        70_000,
        { kind: 'dicom', width: 4000, height: 5000, spacing: { mmPerPx: 0.15 } },
      ]),
    [
      'DICOM with 2 MB of a maker’s own before the picture',
      new SparseFile(film, [
        0,
        pictureFile(
          syntaxes.explicit,
          {
            width: 4000,
            height: 5000,
            more: [...spacing, { tag: '00291010', vr: 'OB', value: new Uint8Array(2_000_000) }],
          },
          new Uint8Array(2),
        ),
      ]),
      6_000_000,
      { kind: 'dicom', width: 4000, height: 5000, spacing: { mmPerPx: 0.15 } },
    ],
  ])('%s', async (_, file, most, facts) => {
    expect(await readPicture(file)).toMatchObject({ problem: null, ...facts });
    expect(file.bytesRead).toBeGreaterThan(0);
    expect(file.bytesRead).toBeLessThan(most);
  });

  it('a DICOM file in which no picture ever begins is given up after 16 MB', async () => {
    const start = pictureFile(syntaxes.explicit, { width: 0, height: 0 }, null);
    const file = new SparseFile(
      2 ** 31,
      [0, start],
      [start.length, Uint8Array.of(0x29, 0, 0x10, 0x10, 79, 66, 0, 0, 0, 0, 0, 64)],
    );
    expect((await readPicture(file)).problem).toMatch(/cut short|no picture/);
    expect(file.bytesRead).toBeLessThan(24_000_000);
  });
});

it('bytes in memory and a file read by pieces say the same, whole and cut anywhere', async () => {
  for (const bytes of [joined([png, turned]), jpeg, header(syntaxes.explicit), header(syntaxes.deflated)])
    for (let length = 0; length <= bytes.length; length += 3) {
      const cut = bytes.slice(0, length);
      expect(await readPicture(new SparseFile(length, [0, cut]))).toEqual(readPictureInMemory(cut));
    }
});

it('a file that cannot be read rejects, so that who asked can say why', async () => {
  const gone: ByteSource = { size: 100, read: () => Promise.reject(new Error('gone')) };
  await expect(readPicture(gone)).rejects.toThrow('gone');
});
