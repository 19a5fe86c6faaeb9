import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { mostShown, plainPicture } from '../../shared/picture/plain-picture.ts';
import { greyPng } from '../host/made-pictures.ts';
import { pictureFile, syntaxes } from './picture-dicom-writer.ts';

const film = readFileSync(join(import.meta.dirname, '../../examples/films/juniper-lf-2026-03-03.png'));
const photo = jpeg.encode({ width: 80, height: 60, data: Buffer.alloc(80 * 60 * 4, 120) }, 80).data;
const said = (bytes: Uint8Array): string => {
  const told = plainPicture(bytes);
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
  ])('%s is shown', (_name, bytes, facts) => {
    expect(said(bytes)).toBe(facts);
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
  ])('%s is refused in words', (_name, bytes, words) => {
    expect(said(bytes)).toContain(words);
  });

  it('never throws at any part of a picture', () => {
    for (const whole of [film, photo])
      for (let length = 0; length < 700; length++) expect(() => plainPicture(whole.subarray(0, length))).not.toThrow();
  });
});
