import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import exifr from 'exifr';
import jpegJs from 'jpeg-js';
import { GifReader } from 'omggif';
import { PNG } from 'pngjs';
import { afterAll, describe, expect, it } from 'vitest';
import { barePicture } from '../../shared/picture/bare/bare-picture.ts';
import type { Orientation } from '../../shared/picture/picture-size.ts';
import { rasterPng } from '../../shared/picture/raster-png.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { showable } from '../../shared/picture/shown-picture.ts';
import { unpackedPackage } from '../host/debian-package.ts';
import { onPath } from '../host/debian.ts';
import { joined } from './picture-dicom-writer.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-bare-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/**
 * Pictures of a few pixels into which exiftool 12.57 wrote what a phone writes, and more: an invented position, maker, person,
 * place, dates, numbers, comments, a small picture; as EXIF, XMP, IPTC, PNG texts and GIF comments. `layered` ones are by Pillow 9.4:
 * progressive with a colour profile, moving, see-through.
 */
const pictures = [
  ['jpeg', 'phone.jpg'],
  ['jpeg', 'layered.jpg'],
  ['png', 'phone.png'],
  ['png', 'layered.png'],
  ['webp', 'phone.webp'],
  ['webp', 'layered.webp'],
  ['gif', 'phone.gif'],
] as const;
type Kind = (typeof pictures)[number][0];

const file = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(join(import.meta.dirname, 'telling-pictures', name)));
const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** The same with what a camera puts behind a picture and in segments of its own. */
function andMore(kind: Kind, bytes: Uint8Array): Uint8Array {
  const behind = ascii('Invented motion picture and its place 48.123456');
  if (kind !== 'jpeg') return joined([bytes, behind]);
  const second = ascii('MPF\0Invented second picture');
  return joined([
    bytes.subarray(0, 2),
    Uint8Array.of(0xff, 0xe2, 0, second.length + 2),
    second,
    bytes.subarray(2),
    behind,
    file('phone.jpg'),
  ]);
}

function bareOf(kind: Kind, name: string): Uint8Array {
  const bytes = andMore(kind, file(name));
  return barePicture(kind, bytes, readPictureInMemory(bytes).orientation);
}

/** Pixels by decoders that know nothing of ours; for WebP, which none of these read, the coded data. */
function pixels(kind: Kind, bytes: Uint8Array): unknown {
  switch (kind) {
    case 'jpeg':
      return Array.from(jpegJs.decode(bytes, { useTArray: true }).data);
    case 'png':
      return Array.from(PNG.sync.read(Buffer.from(bytes)).data);
    case 'gif': {
      const reader = new GifReader(Buffer.from(bytes));
      return Array.from({ length: reader.numFrames() }, (_, i) => {
        const data = new Uint8Array(reader.width * reader.height * 4);
        reader.decodeAndBlitFrameRGBA(i, data);
        return [Array.from(data), reader.frameInfo(i).delay, reader.loopCount()];
      });
    }
    case 'webp': {
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      const coded: string[] = [];
      for (let at = 12; at + 8 <= 8 + view.getUint32(4, true);) {
        const name = String.fromCharCode(...bytes.subarray(at, at + 4));
        const length = view.getUint32(at + 4, true);
        const body = Buffer.from(bytes.subarray(at + 8, at + 8 + length)).toString('hex');
        if (/^(?:VP8[ L]|ALPH|ANIM|ANMF)$/.test(name)) coded.push(name, body);
        at += 8 + length + (length % 2);
      }
      return coded;
    }
  }
}

/** Tags that the reader makes up itself, or that tell of the coded picture alone. */
const harmless =
  /^(?:ExifTool|File:(?:File|Directory|MIME|Image|Encoding|BitsPer|Color|YCbCr|Exif)|JFIF:|Composite:(?:ImageSize|Megapixels)|ICC_Profile:|ICC-header:|PNG:(?:ImageWidth|ImageHeight|BitDepth|ColorType|Compression|Filter|Interlace|ProfileName|Transparency|AnimationFrames|AnimationPlays|Gamma|SRGBRendering)|RIFF:(?:ImageWidth|ImageHeight|WebP_Flags|AlphaP|AlphaF|AlphaC|VP8Version|Horizontal|Vertical|Animation|BackgroundColor|FrameCount|Duration)|GIF:(?:GIFVersion|HasColorMap|ColorRes|BitsPer|Background|Image|FrameCount|Duration|Animation)|EXIF:Orientation|SourceFile)/;

/** Debian's exiftool: the one that is installed, else its package unpacked beside; a sentence where there is neither. */
function findExiftool(): readonly [string, ...string[]] | string {
  const installed = onPath(['exiftool']);
  if (installed !== null) return [installed];
  const { folder: files, why } = unpackedPackage('libimage-exiftool-perl');
  if (files === null) return `not run: ${why}`;
  const command = ['perl', '-I', join(files, 'usr/share/perl5'), join(files, 'usr/bin/exiftool')] as const;
  try {
    execFileSync(command[0], [...command.slice(1), '-ver'], { stdio: 'ignore' });
    return command;
  } catch {
    return 'not run: exiftool needs a whole Perl, which is not there';
  }
}

const exiftool = findExiftool();

/** Every tag that Debian's exiftool finds, by group and name. */
function tagsOf(bytes: Uint8Array, name: string): Record<string, string> {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  const [program = '', ...before] = exiftool;
  const [told] = JSON.parse(
    execFileSync(program, [...before, '-j', '-a', '-u', '-U', '-ee', '-G', path], { encoding: 'utf8' }),
  ) as Record<string, string>[];
  return told ?? {};
}

describe('a picture that is passed on loses what a phone wrote into it', () => {
  it.each(pictures)('%s, %s: no invented word, no day, no place is left in the bytes', (kind, name) => {
    const given = Buffer.from(andMore(kind, file(name))).toString('latin1');
    const bare = Buffer.from(bareOf(kind, name)).toString('latin1');
    const told = /invented|\d{4}:\d\d:\d\d|xpacket|photoshop|\bgps/gi;
    expect(given.match(told)?.length).toBeGreaterThan(1);
    expect(bare.match(told)).toBeNull();
  });

  it.each(pictures)('%s, %s: its pixels are the same, in other libraries', (kind, name) => {
    const bare = bareOf(kind, name);
    expect(pixels(kind, bare)).toEqual(pixels(kind, file(name)));
    expect(pixels(kind, bare)).not.toHaveLength(0);
  });

  it.each(pictures)('%s, %s: it stands the same way up', (kind, name) => {
    const facts = readPictureInMemory(file(name));
    expect(readPictureInMemory(bareOf(kind, name))).toEqual(facts);
    if (name.startsWith('phone') && kind !== 'gif') expect(facts.orientation).toBe(6);
  });

  it.each(pictures)('%s, %s: bare once, it stays as it is', (kind, name) => {
    const bare = bareOf(kind, name);
    expect(barePicture(kind, bare, readPictureInMemory(bare).orientation)).toEqual(bare);
  });

  it.each(['phone.jpg', 'phone.png'] as const)(
    '%s: the exifr library finds nothing but the orientation',
    async (name) => {
      const kind = name === 'phone.jpg' ? 'jpeg' : 'png';
      const all = { tiff: true, exif: true, gps: true, xmp: true, iptc: true, ifd1: true, interop: true } as const;
      const given = (await exifr.parse(file(name), all)) as Record<string, unknown>;
      expect(given).toMatchObject({ Make: 'Inventedcam', latitude: expect.closeTo(48.123456, 5) as number });
      const told = (await exifr.parse(bareOf(kind, name), { ...all, translateValues: false })) as Record<
        string,
        unknown
      >;
      for (const size of ['ImageWidth', 'ImageHeight', 'BitDepth', 'ColorType', 'Compression', 'Filter', 'Interlace'])
        delete told[size];
      expect(told).toEqual({ Orientation: 6 });
      expect(await exifr.thumbnail(bareOf('jpeg', 'phone.jpg'))).toBeUndefined();
    },
  );

  it.for(pictures)(
    '%s, %s: exiftool finds the picture and its orientation, and nothing else',
    ([kind, name], context) => {
      context.skip(typeof exiftool === 'string', String(exiftool));
      const given = Object.keys(tagsOf(file(name), name));
      expect(given.filter((tag) => !harmless.test(tag)).length).toBeGreaterThan(0);
      const told = tagsOf(bareOf(kind, name), `bare-${name}`);
      expect(told['ExifTool:Warning'] ?? told['ExifTool:Error']).toBeUndefined();
      expect(Object.keys(told).filter((tag) => !harmless.test(tag))).toEqual([]);
      const profile = ['ProfileDateTime', 'DeviceManufacturer', 'DeviceModel', 'ProfileCreator'];
      for (const tag of profile) expect(told[`ICC_Profile:${tag}`] ?? '').not.toMatch(/[1-9A-Za-z]/);
    },
  );

  it('what reports embed went through it, of every kind', async () => {
    for (const [kind, name] of pictures) {
      const shown = await showable(file(name));
      if ('problem' in shown) throw new Error(shown.problem);
      expect(shown.mime).toBe(`image/${kind}`);
      expect(Buffer.from(shown.bytes).toString('latin1')).not.toMatch(/invented/i);
    }
  });

  it('every orientation is kept', () => {
    for (const kind of ['jpeg', 'png', 'webp'] as const)
      for (const orientation of [1, 2, 3, 4, 5, 6, 7, 8] as Orientation[]) {
        const bare = barePicture(kind, file(`phone.${kind === 'jpeg' ? 'jpg' : kind}`), orientation);
        expect(readPictureInMemory(bare).orientation).toBe(orientation);
      }
  });

  it('a picture made of a DICOM or TIFF file tells nothing but its pixels', (context) => {
    context.skip(typeof exiftool === 'string', String(exiftool));
    const told = tagsOf(rasterPng({ width: 2, height: 2, channels: 1, data: new Uint8Array(4) }), 'raster.png');
    expect(Object.keys(told).filter((tag) => !harmless.test(tag))).toEqual([]);
  });

  it('cut short or changed anywhere, it is a picture or a sentence', async () => {
    let refused = 0;
    for (const [, name] of pictures) {
      const whole = file(name);
      for (let at = 0; at < whole.length; at += 7)
        for (const bytes of [whole.subarray(0, at), whole.with(at, (whole[at] ?? 0) ^ 0xff)]) {
          const shown = await showable(bytes);
          if ('problem' in shown) {
            refused++;
            expect(shown.problem).toMatch(/^[A-Z].*\.$/);
          } else expect(shown.bytes.length).toBeGreaterThan(0);
        }
    }
    expect(refused).toBeGreaterThan(20);
  });
});
