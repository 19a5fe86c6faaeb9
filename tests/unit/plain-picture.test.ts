import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { mostShown, plainPicture } from '../../shared/picture/plain-picture.ts';
import { greyPng } from '../host/made-pictures.ts';
import { bytesAsFile } from './bytes-as-file.ts';
import { pictureFile, syntaxes } from './picture-dicom-writer.ts';

const film = readFileSync(join(import.meta.dirname, '../../examples/films/juniper-lf-2026-03-03.png'));
const photo = jpeg.encode({ width: 80, height: 60, data: Buffer.alloc(80 * 60 * 4, 120) }, 80).data;
const said = async (bytes: Uint8Array): Promise<string> => {
  const told = await plainPicture(bytesAsFile(bytes));
  return 'problem' in told ? told.problem : `${told.width} by ${told.height}, ${told.whole ? 'whole' : 'cut short'}`;
};

describe('a picture is looked at before a page is given it', () => {
  it.each([
    ['a film', film, '1400 by 1200, whole'],
    ['half a film', film.subarray(0, film.length / 2), '1400 by 1200, cut short'],
    ['a photo', photo, '80 by 60, whole'],
    ['half a photo', photo.subarray(0, photo.length / 2 + 300), '80 by 60, cut short'],
    ['a photo with more behind it', Buffer.concat([photo, Buffer.alloc(200)]), '80 by 60, whole'],
    ['100 million pixels', greyPng(10_000, 10_000, 1), '10000 by 10000, whole'],
  ])('%s is shown', async (_name, bytes, facts) => {
    expect(await said(bytes)).toBe(facts);
  });

  it.each([
    ['nothing', new Uint8Array(), 'The file is empty.'],
    ['a letter', Buffer.from('Dear vet'), 'not a picture that can be read here'],
    ['a PDF', Buffer.from('%PDF-1.7'), 'Export the film from it as PNG'],
    ['a header that stops', film.subarray(0, 20), 'cut short. Copy it again'],
    ['a JPEG of nothing', Buffer.from([0xff, 0xd8, 0xff, 0xd9]), 'no picture header'],
    ['2500 million pixels in 20 rows', greyPng(50_000, 50_000, 1, 20), 'Save a copy at half the size'],
    ['a row too many', greyPng(mostShown, 2, 1, 0), 'Save a copy at half the size'],
    ['no width', greyPng(0, 9, 1, 0), '0 pixels wide'],
    ['a DICOM file', pictureFile(syntaxes.explicit, { width: 1, height: 1 }, new Uint8Array(2), 'OW'), 'end in .dcm'],
    ['a TIFF file', Buffer.from('II*\0\x08\0\0\0', 'latin1'), 'end in .tif'],
    ['a WebP of nothing', Buffer.from('RIFF\x04\0\0\0WEBP', 'latin1'), 'WebP file is damaged'],
    ['a GIF of nothing', Buffer.from('GIF89a', 'latin1'), 'cut short'],
  ])('%s is refused in words', async (_name, bytes, words) => {
    expect(await said(bytes)).toContain(words);
  });

  it('says something of every part of a picture', async () => {
    for (const whole of [film, photo])
      for (let length = 0; length < 700; length++)
        expect(await said(whole.subarray(0, length))).toMatch(/cut short|\.$/);
  });

  it.each([
    ['a film of 150 MB', film],
    ['a photo of 150 MB', photo],
  ])('%s is not read whole', async (_name, bytes) => {
    // Between its two halves lies what nobody has to read.
    const half = Math.floor(bytes.length / 2);
    const gap = 150_000_000 - bytes.length;
    let [read, most] = [0, 0];
    const told = await plainPicture({
      size: 150_000_000,
      read(start, length) {
        read += length;
        most = Math.max(most, length);
        const piece = new Uint8Array(Math.max(0, Math.min(length, 150_000_000 - start)));
        for (let i = 0; i < piece.length; i++) {
          const at = start + i;
          piece[i] = bytes[at < half ? at : at >= half + gap ? at - gap : -1] ?? 0;
        }
        return Promise.resolve(piece);
      },
    });
    expect(told).toMatchObject({ whole: true });
    expect(read).toBeLessThan(1_000_000);
    expect(most).toBeLessThan(100_000);
  });

  it('an end that lies across two pieces is found', async () => {
    for (const behind of [2 ** 16 - 11, 2 ** 16 - 6, 2 ** 16 - 1, 2 ** 16])
      expect(await said(Buffer.concat([film, Buffer.alloc(behind)]))).toBe('1400 by 1200, whole');
  });
});
