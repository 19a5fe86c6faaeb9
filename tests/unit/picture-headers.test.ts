import jpegJs from 'jpeg-js';
import { PNG } from 'pngjs';
import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { joined } from './picture-dicom-writer.ts';

const width = 7;
const height = 5;
const turned = [1, 2, 3, 4, 5, 6, 7, 8] as const;

function jpeg(): Uint8Array {
  return new Uint8Array(jpegJs.encode({ width, height, data: new Uint8Array(width * height * 4).fill(99) }, 90).data);
}

function png(): Uint8Array {
  return new Uint8Array(PNG.sync.write(new PNG({ width, height })));
}

function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

/** A TIFF directory with the given short values and nothing else, in either byte order; an EXIF block is the same. */
function tiff(entries: Readonly<Record<number, number>>, little: boolean): Uint8Array {
  const tags = Object.entries(entries);
  const view = new DataView(new ArrayBuffer(8 + 2 + 12 * tags.length + 4));
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  view.setUint16(8, tags.length, little);
  tags.forEach(([tag, value], i) => {
    view.setUint16(10 + 12 * i, Number(tag), little);
    view.setUint16(12 + 12 * i, 3, little);
    view.setUint32(14 + 12 * i, 1, little);
    view.setUint16(18 + 12 * i, value, little);
  });
  return new Uint8Array(view.buffer);
}

function bigEndianLength(length: number): Uint8Array {
  return Uint8Array.of(length >>> 24, (length >> 16) & 255, (length >> 8) & 255, length & 255);
}

function jpegWith(exif: Uint8Array): Uint8Array {
  const body = joined([ascii('Exif\0\0'), exif]);
  const length = body.length + 2;
  const [start, rest] = [jpeg().subarray(0, 2), jpeg().subarray(2)];
  return joined([start, Uint8Array.of(0xff, 0xe1, length >> 8, length & 255), body, rest]);
}

/** The chunk stands behind the picture, where some writers put it. */
function pngWith(exif: Uint8Array): Uint8Array {
  const chunk = joined([ascii('eXIf'), exif]);
  const whole = png();
  return joined([
    whole.subarray(0, -12),
    bigEndianLength(exif.length),
    chunk,
    bigEndianLength(crc32(chunk)),
    whole.subarray(-12),
  ]);
}

function riff(...chunks: [string, Uint8Array][]): Uint8Array {
  const body = joined(
    chunks.flatMap(([name, bytes]) => [
      ascii(name),
      bigEndianLength(bytes.length).reverse(),
      bytes,
      new Uint8Array(bytes.length % 2),
    ]),
  );
  return joined([ascii('RIFF'), bigEndianLength(body.length + 4).reverse(), ascii('WEBP'), body]);
}

const extended = Uint8Array.of(8, 0, 0, 0, width - 1, 0, 0, height - 1, 0, 0);

describe('orientation: width and height are those of the picture as shown', () => {
  describe.each([
    ['JPEG', 'jpeg', jpegWith],
    ['PNG', 'png', pngWith],
    ['WebP', 'webp', (exif: Uint8Array) => riff(['VP8X', extended], ['XMP ', Uint8Array.of(1)], ['EXIF', exif])],
  ] as const)('%s', (_, kind, withExif) => {
    it.each(
      turned.flatMap(
        (orientation) =>
          [
            [orientation, true],
            [orientation, false],
          ] as const,
      ),
    )('orientation %i, EXIF little endian: %s', (orientation, little) => {
      const shown = orientation >= 5 ? { width: height, height: width } : { width, height };
      expect(readPictureInMemory(withExif(tiff({ 274: orientation }, little)))).toEqual({
        kind,
        ...shown,
        orientation,
        spacing: null,
        noSpacing: null,
        problem: null,
      });
    });
  });

  it.each(
    turned.flatMap(
      (orientation) =>
        [
          [orientation, true],
          [orientation, false],
        ] as const,
    ),
  )('TIFF, orientation %i, little endian: %s', (orientation, little) => {
    const shown = orientation >= 5 ? { width: height, height: width } : { width, height };
    expect(readPictureInMemory(tiff({ 256: width, 257: height, 274: orientation }, little))).toMatchObject({
      kind: 'tiff',
      ...shown,
      orientation,
      problem: null,
    });
  });

  it('none given, one out of range, or a broken EXIF block: as stored', () => {
    for (const bytes of [
      jpeg(),
      jpegWith(tiff({ 274: 9 }, true)),
      jpegWith(tiff({ 274: 0 }, true)),
      jpegWith(Uint8Array.of(1, 2, 3)),
      png(),
      pngWith(new Uint8Array(0)),
      tiff({ 256: width, 257: height }, true),
    ]) {
      expect(readPictureInMemory(bytes)).toMatchObject({ width, height, orientation: 1, problem: null });
    }
  });
});

describe('size', () => {
  it('WebP with and without loss (RFC 9649)', () => {
    const lossy = Uint8Array.of(0, 0, 0, 0x9d, 0x01, 0x2a, 0x40, 0x41, 0xf0, 0x80);
    expect(readPictureInMemory(riff(['VP8 ', lossy]))).toMatchObject({
      kind: 'webp',
      width: 0x140,
      height: 0xf0,
      problem: null,
    });
    const packed = (1599 | (1199 << 14)) >>> 0;
    expect(
      readPictureInMemory(riff(['VP8L', joined([Uint8Array.of(0x2f), bigEndianLength(packed).reverse()])])),
    ).toMatchObject({ width: 1600, height: 1200, problem: null });
  });

  it('WebP beyond 65535 pixels wide', () => {
    expect(readPictureInMemory(riff(['VP8X', Uint8Array.of(0, 0, 0, 0, 0xff, 0xff, 0x01, 9, 0, 0)]))).toMatchObject({
      width: 0x20000,
      height: 10,
    });
  });

  it.each(['GIF87a', 'GIF89a'])('%s', (start) => {
    expect(readPictureInMemory(joined([ascii(start), Uint8Array.of(0x40, 0x06, 0xb0, 0x04, 0, 0, 0)]))).toMatchObject({
      kind: 'gif',
      width: 1600,
      height: 1200,
      problem: null,
    });
  });

  it('a JPEG with a thumbnail in its EXIF block: the size is that of the picture', () => {
    const thumbnail = jpegJs.encode({ width: 3, height: 3, data: new Uint8Array(36) }, 50).data;
    expect(readPictureInMemory(jpegWith(joined([tiff({ 274: 6 }, false), new Uint8Array(thumbnail)])))).toMatchObject({
      width: height,
      height: width,
    });
  });
});

describe('files that cannot be used give a sentence', () => {
  it.each([
    ['nothing', new Uint8Array(0), 'unknown', /empty/],
    ['text', ascii('case Bella'), 'unknown', /PNG, JPEG, WebP, GIF, TIFF and DICOM/],
    ['HEIC', joined([Uint8Array.of(0, 0, 0, 24), ascii('ftypheic')]), 'unknown', /HEIC.*JPEG/],
    ['PDF', ascii('%PDF-1.7'), 'unknown', /PDF/],
    ['BMP', ascii('BM1234'), 'unknown', /bitmap/],
    ['BigTIFF', joined([ascii('II'), Uint8Array.of(43, 0, 8, 0, 0, 0)]), 'tiff', /BigTIFF/],
    ['TIFF without a size', tiff({ 274: 1 }, true), 'tiff', /how large/],
    [
      'PNG that does not begin with its size',
      joined([png().subarray(0, 12), ascii('IDAT'), png().subarray(16)]),
      'png',
      /damaged/,
    ],
    ['PNG of no width', joined([png().subarray(0, 16), new Uint8Array(4), png().subarray(20)]), 'png', /0 pixels/],
    ['JPEG without a frame', Uint8Array.of(0xff, 0xd8, 0xff, 0xd9), 'jpeg', /no picture header/],
    ['WebP of an unknown sort', riff(['VP9 ', new Uint8Array(20)]), 'webp', /damaged/],
  ] as const)('%s', (_, bytes, kind, said) => {
    const facts = readPictureInMemory(bytes);
    expect(facts).toMatchObject({ kind, width: null, height: null });
    expect(facts.problem).toMatch(said);
  });

  it.each([
    ['jpeg', jpegWith(tiff({ 274: 6 }, true))],
    ['png', pngWith(tiff({ 274: 6 }, true))],
    ['tiff', tiff({ 256: width, 257: height }, true)],
    ['webp', riff(['VP8X', extended])],
  ] as const)('%s cut at each length either gives the size or a sentence that ends with a full stop', (_, bytes) => {
    const sayings = Array.from(bytes, (__, length) => readPictureInMemory(bytes.subarray(0, length)));
    for (const { width: w, height: h, problem } of sayings) {
      if (problem === null) expect([w, h].sort()).toEqual([height, width].sort());
      else expect(problem).toMatch(/^[A-Z].*\.$/);
    }
    expect(sayings.filter(({ problem }) => problem !== null).length).toBeGreaterThan(5);
  });
});
