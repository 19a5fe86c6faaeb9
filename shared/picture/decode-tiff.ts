import { fromArrayBuffer } from 'geotiff';
import { orientationFrom } from './picture-size.ts';
import type { Decoded, Raster } from './raster.ts';
import { refuseImpossibleSize } from './size-guard.ts';
import { firstDirectory, tag, tiffSize } from './tiff-directory.ts';
import { upright } from './upright.ts';
import { Unreadable, sentenceOf } from './unreadable.ts';

const photometric = { whiteIsZero: 0, blackIsZero: 1, rgb: 2, palette: 3 } as const;

/**
 * The first picture of a TIFF file, turned upright by its orientation. Grey of more than 8 bits is stretched from its darkest to its
 * brightest value; colours of 16 bits lose their lower byte. Never rejects: a file that cannot be shown gives a sentence.
 */
export async function decodeTiff(bytes: Uint8Array): Promise<Decoded> {
  try {
    return { raster: await rasterOf(bytes), problem: null };
  } catch (cause) {
    return { raster: null, problem: sentenceOf(cause, 'The TIFF file is damaged, cut short, or compressed in a way that is not read here. Save it as PNG.') };
  }
}

async function rasterOf(bytes: Uint8Array): Promise<Raster> {
  const { width, height, orientation } = tiffSize(bytes);
  const directory = firstDirectory(bytes);
  refuseImpossibleSize(width, height, bytes.length);
  const tileWidth = directory.get(tag.tileWidth);
  const tileHeight = directory.get(tag.tileHeight);
  if (tileWidth && tileHeight) refuseImpossibleSize(tileWidth, tileHeight, bytes.length);

  const file = await fromArrayBuffer(bytes.slice().buffer);
  const image = await file.getImage(0);
  const meant = image.fileDirectory.getValue('PhotometricInterpretation');
  const samples = image.getSamplesPerPixel();
  const bits = image.getBitsPerSample();
  if (meant === photometric.palette) return upright({ width, height, channels: 3, data: await paletteColours(image) }, orientationFrom(orientation));
  if (meant === photometric.whiteIsZero || meant === photometric.blackIsZero) {
    const [values] = (await image.readRasters({ samples: [0] })) as unknown as readonly ArrayLike<number>[];
    if (!values) throw new Unreadable('The TIFF file holds no picture.');
    return upright({ width, height, channels: 1, data: shades(values, bits, meant === photometric.whiteIsZero) }, orientation);
  }
  if (meant === photometric.rgb && samples >= 3) {
    const values = (await image.readRasters({ samples: [0, 1, 2], interleave: true })) as unknown as ArrayLike<number>;
    if (bits !== 8 && bits !== 16) throw new Unreadable(`The TIFF file has ${bits} bits a colour; 8 and 16 are read here. Save it as PNG.`);
    return upright({ width, height, channels: 3, data: Uint8Array.from(values, (value) => (bits === 16 ? value >> 8 : value)) }, orientation);
  }
  const values = (await image.readRGB({ interleave: true })) as unknown as ArrayLike<number>;
  return upright({ width, height, channels: 3, data: Uint8Array.from(values) }, orientation);
}

type TiffImage = Awaited<ReturnType<Awaited<ReturnType<typeof fromArrayBuffer>>['getImage']>>;

/** ColorMap (TIFF 6.0, section 5): all reds, all greens, all blues, 16 bits each. */
async function paletteColours(image: TiffImage): Promise<Uint8Array> {
  const map = (await image.fileDirectory.loadValue('ColorMap')) as ArrayLike<number> | undefined;
  const [indices] = (await image.readRasters({ samples: [0] })) as unknown as readonly ArrayLike<number>[];
  if (!map || !indices) throw new Unreadable('The TIFF file has a palette picture without its palette.');
  const colours = map.length / 3;
  const data = new Uint8Array(indices.length * 3);
  for (let i = 0; i < indices.length; i++) {
    for (let channel = 0; channel < 3; channel++) data[3 * i + channel] = (map[channel * colours + (indices[i] ?? 0)] ?? 0) >> 8;
  }
  return data;
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
