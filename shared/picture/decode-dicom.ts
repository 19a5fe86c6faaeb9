import { t } from '../language/words.ts';
import { colourShades, paletteShades } from './colour-shades.ts';
import { openDicom } from './dicom-file.ts';
import { firstFrame } from './dicom-frame.ts';
import { describeImage } from './dicom-image.ts';
import { levelsOf } from './dicom-levels.ts';
import { greyShades } from './grey-shades.ts';
import type { DecodedPicture, Raster } from './raster.ts';
import { refuseImpossibleSize } from './size-guard.ts';
import { toldValue } from './told-value.ts';
import { transferSyntax } from './transfer-syntaxes.ts';
import { Unreadable, sentenceOf } from './unreadable.ts';

/**
 * The first frame of a DICOM file as it is meant to be looked at: window or table of the file applied (or stretched from darkest to
 * brightest), MONOCHROME1 turned round. Never rejects: a file that cannot be shown gives a sentence.
 */
export async function decodeDicom(bytes: Uint8Array): Promise<DecodedPicture> {
  try {
    return { raster: await rasterOf(bytes), problem: null };
  } catch (cause) {
    return {
      raster: null,
      problem: sentenceOf(cause, t('The picture in this DICOM file is damaged and cannot be shown.')),
    };
  }
}

async function rasterOf(bytes: Uint8Array): Promise<Raster> {
  const file = openDicom(bytes);
  const image = describeImage(file);
  const syntax = transferSyntax(file.syntax);
  const named = `${syntax?.name ?? t('an unknown transfer syntax')} (${toldValue(file.syntax) || t('none given')})`;
  if (!syntax?.load)
    throw new Unreadable(
      t(
        'The picture is stored as {0}, which is not read here. Export the film again without compression, or as PNG.',
        named,
      ),
    );
  const frame = firstFrame(file, image, syntax.encapsulated);
  refuseImpossibleSize(image.width, image.height, frame.length);
  const decode = await syntax.load();
  const samples = await decodedOrNamed(() => decode(frame, image), named);
  const size = image.width * image.height;
  if (samples.values.length < size * image.samples)
    throw new Unreadable(t('The picture, stored as {0}, is damaged: a part of it is missing.', named));
  if (image.samples === 3)
    return { width: image.width, height: image.height, channels: 3, data: colourShades(samples, image) };
  if (image.photometric === 'PALETTE COLOR')
    return { width: image.width, height: image.height, channels: 3, data: paletteShades(samples, image, file.dataSet) };
  return {
    width: image.width,
    height: image.height,
    channels: 1,
    data: greyShades(samples, image, levelsOf(file.dataSet, image)),
  };
}

async function decodedOrNamed<T>(decode: () => T | Promise<T>, named: string): Promise<T> {
  try {
    return await decode();
  } catch (cause) {
    throw new Unreadable(sentenceOf(cause, t('The picture, stored as {0}, is damaged and cannot be shown.', named)), {
      cause,
    });
  }
}
