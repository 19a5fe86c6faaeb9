import { t } from '../language/words.ts';
import { fromArrayBuffer } from 'geotiff';
import { boundTiffDecoders } from './decoders/tiff-blocks.ts';
import { readWithin } from './header-reader.ts';
import type { DecodedPicture, Raster } from './raster.ts';
import { refuseImpossibleSize } from './size-guard.ts';
import { firstDirectory, refuseImpossibleDirectory, tag, tiffSize } from './tiff-directory.ts';
import { upright } from './upright.ts';
import { Unreadable, sentenceOf } from './unreadable.ts';

/** None, LZW, Deflate by its two numbers, PackBits. */
const read = new Set([1, 5, 8, 32946, 32773]);
const otherNames: Readonly<Record<number, string>> = {
  2: 'CCITT run length',
  3: 'fax group 3',
  4: 'fax group 4',
  6: 'old JPEG',
  7: 'JPEG',
  34712: 'JPEG 2000',
};

const photometric = { whiteIsZero: 0, blackIsZero: 1, rgb: 2, palette: 3 } as const;

/**
 * The first picture of a TIFF file, turned upright by its orientation. Grey of more than 8 bits is stretched from its darkest to its
 * brightest value; colours of 16 bits lose their lower byte. Never rejects: a file that cannot be shown gives a sentence.
 */
export async function decodeTiff(bytes: Uint8Array): Promise<DecodedPicture> {
  try {
    return { raster: await rasterOf(bytes), problem: null };
  } catch (cause) {
    return {
      raster: null,
      problem: sentenceOf(
        cause,
        t('The TIFF file is damaged, cut short, or compressed in a way that is not read here. Save it as PNG.'),
      ),
    };
  }
}

async function rasterOf(bytes: Uint8Array): Promise<Raster> {
  const { width, height, orientation } = readWithin(bytes, tiffSize());
  const directory = firstDirectory(bytes);
  refuseImpossibleSize(width, height, bytes.length);
  refuseImpossibleSize(directory.get(tag.tileWidth) ?? 1, directory.get(tag.tileHeight) ?? 1, bytes.length);
  const compression = directory.get(tag.compression) ?? 1;
  if (!read.has(compression))
    throw new Unreadable(
      t(
        'The TIFF file is compressed in a way that is not read here ({0}). Save it without compression or as PNG.',
        otherNames[compression] ?? t('number {0}', compression),
      ),
    );

  refuseImpossibleDirectory(bytes);
  boundTiffDecoders();
  const file = await fromArrayBuffer(bytes.slice().buffer);
  const image = await file.getImage(0);
  await refuseMissingBlocks(image, bytes.length);
  const meant = image.fileDirectory.getValue('PhotometricInterpretation');
  const samples = image.getSamplesPerPixel();
  const bits = image.getBitsPerSample();
  if (meant === photometric.palette)
    return upright({ width, height, channels: 3, data: await paletteColours(image) }, orientation);
  if (meant === photometric.whiteIsZero || meant === photometric.blackIsZero) {
    const values = complete(
      (await image.readRasters({ samples: [0], interleave: true })) as unknown as ArrayLike<number>,
      width * height,
    );
    return upright(
      { width, height, channels: 1, data: shades(values, bits, meant === photometric.whiteIsZero) },
      orientation,
    );
  }
  if (meant === photometric.rgb && samples >= 3) {
    if (bits !== 8 && bits !== 16)
      throw new Unreadable(t('The TIFF file has {0} bits a colour; 8 and 16 are read here. Save it as PNG.', bits));
    const values = complete(
      (await image.readRasters({ samples: [0, 1, 2], interleave: true })) as unknown as ArrayLike<number>,
      3 * width * height,
    );
    return upright(
      { width, height, channels: 3, data: Uint8Array.from(values, (value) => (bits === 16 ? value >> 8 : value)) },
      orientation,
    );
  }
  throw new Unreadable(t('The colours of the TIFF file are neither grey, RGB nor a palette. Save it as PNG.'));
}

type TiffImage = Awaited<ReturnType<Awaited<ReturnType<typeof fromArrayBuffer>>['getImage']>>;

/** ColorMap (TIFF 6.0, section 5): all reds, all greens, all blues, 16 bits each. */
async function paletteColours(image: TiffImage): Promise<Uint8Array> {
  const map = (await image.fileDirectory.loadValue('ColorMap')) as ArrayLike<number> | undefined;
  if (!map?.length) throw new Unreadable(t('The TIFF file has a palette picture without its palette.'));
  const indices = complete(
    (await image.readRasters({ samples: [0], interleave: true })) as unknown as ArrayLike<number>,
    image.getWidth() * image.getHeight(),
  );
  const colours = map.length / 3;
  const data = new Uint8Array(indices.length * 3);
  for (let i = 0; i < indices.length; i++) {
    for (let channel = 0; channel < 3; channel++)
      data[3 * i + channel] = (map[channel * colours + (indices[i] ?? 0)] ?? 0) >> 8;
  }
  return data;
}

/** The library leaves black what lies in no strip, and fails only later, or never, where a strip lies outside the file. @throws Unreadable */
async function refuseMissingBlocks(image: TiffImage, fileLength: number): Promise<void> {
  const kind = image.isTiled ? 'Tile' : 'Strip';
  const offsets = Array.from(
    ((await image.fileDirectory.loadValue(`${kind}Offsets`)) ?? []) as ArrayLike<number>,
    Number,
  );
  const counts = Array.from(
    ((await image.fileDirectory.loadValue(`${kind}ByteCounts`)) ?? []) as ArrayLike<number>,
    Number,
  );
  const planes = image.fileDirectory.getValue('PlanarConfiguration') === 2 ? image.getSamplesPerPixel() : 1;
  const blocks =
    Math.ceil(image.getWidth() / image.getTileWidth()) * Math.ceil(image.getHeight() / image.getTileHeight()) * planes;
  const there = offsets.filter((offset, i) => (counts[i] ?? 0) > 0 && offset + (counts[i] ?? 0) <= fileLength).length;
  if (!(there >= blocks))
    throw new Unreadable(t('The TIFF file is cut short or damaged: a part of its picture is missing.'));
}

function complete(values: ArrayLike<number>, count: number): ArrayLike<number> {
  if (values.length !== count)
    throw new Unreadable(t('The TIFF file is damaged: its picture is not of the size that it says.'));
  return values;
}

function shades(values: ArrayLike<number>, bits: number, whiteIsZero: boolean): Uint8Array {
  const [low, high] = bits <= 8 ? [0, 2 ** bits - 1] : range(values);
  const scale = high > low ? 255 / (high - low) : 0;
  return Uint8Array.from(values, (value) => {
    const shade = Math.round((value - low) * scale);
    return whiteIsZero ? 255 - shade : shade;
  });
}

function range(values: ArrayLike<number>): readonly [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? 0;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}
