import { t } from '../language/words.ts';
import { textOf, wholeOf } from './dicom-elements.ts';
import type { DicomFile } from './dicom-file.ts';
import { mostPixels } from './size-guard.ts';
import { toldValue } from './told-value.ts';
import { Unreadable } from './unreadable.ts';

/** How the pixels of a file are laid out (Image Pixel Module, PS3.3 C.7.6.3). Sizes are of one frame, in pixels. */
export interface DicomImage {
  readonly width: number;
  readonly height: number;
  readonly samples: 1 | 3;
  readonly bitsAllocated: 8 | 16 | 32;
  readonly bitsStored: number;
  readonly highBit: number;
  readonly signed: boolean;
  readonly photometric: Photometric;
  /** Whether all of one colour come before the next (Planar Configuration 1). */
  readonly planar: boolean;
  readonly frames: number;
  readonly littleEndian: boolean;
  /** Value Representation of the pixel data, which settles the byte order of 8-bit pixels in a big endian file. */
  readonly wordPixels: boolean;
}

const photometrics = [
  'MONOCHROME1',
  'MONOCHROME2',
  'PALETTE COLOR',
  'RGB',
  'YBR_FULL',
  'YBR_FULL_422',
  'YBR_ICT',
  'YBR_RCT',
] as const;
export type Photometric = (typeof photometrics)[number];

const bigEndian = '1.2.840.10008.1.2.2';

/** @throws Unreadable where the layout is missing, contradicts itself, or is of a kind that is not read here. */
export function describeImage({ dataSet, syntax }: DicomFile): DicomImage {
  const height = wholeOf(dataSet, 'x00280010');
  const width = wholeOf(dataSet, 'x00280011');
  if (!width || !height)
    throw new Unreadable(t('This DICOM file holds no picture: it may be a report or a directory of a disc.'));
  if (width * height > mostPixels)
    throw new Unreadable(
      t(
        'The file says that its picture is {0} by {1} pixels, which is larger than any radiograph; the file is probably damaged.',
        width,
        height,
      ),
    );
  if (dataSet.elements['x7fe00008'] ?? dataSet.elements['x7fe00009'])
    throw new Unreadable(
      t(
        'The picture is stored as floating-point numbers, which is not read here. Export it as an ordinary DICOM picture or as PNG.',
      ),
    );
  const samples = wholeOf(dataSet, 'x00280002') ?? 1;
  if (samples !== 1 && samples !== 3)
    throw new Unreadable(t('The picture has {0} values a pixel; only grey (1) and colour (3) are read here.', samples));
  const bitsAllocated = wholeOf(dataSet, 'x00280100');
  if (bitsAllocated !== 8 && bitsAllocated !== 16 && bitsAllocated !== 32)
    throw new Unreadable(
      t('The picture has {0} bits a value; 8, 16 and 32 are read here.', bitsAllocated ?? t('no stated number of')),
    );
  const bitsStored = wholeOf(dataSet, 'x00280101') ?? bitsAllocated;
  const highBit = wholeOf(dataSet, 'x00280102') ?? bitsStored - 1;
  if (bitsStored < 1 || bitsStored > bitsAllocated || highBit >= bitsAllocated || highBit + 1 < bitsStored) {
    throw new Unreadable(
      t(
        'The file contradicts itself about its pixels ({0} of {1} bits, the highest at {2}); it is damaged.',
        bitsStored,
        bitsAllocated,
        highBit,
      ),
    );
  }
  const named = textOf(dataSet, 'x00280004') ?? (samples === 3 ? 'RGB' : 'MONOCHROME2');
  const photometric = photometrics.find((known) => known === named);
  if (!photometric)
    throw new Unreadable(
      t('The colours of the picture are stored as {0}, which is not read here. Export it as PNG.', toldValue(named)),
    );
  const grey = photometric.startsWith('MONOCHROME') || photometric === 'PALETTE COLOR';
  if (grey !== (samples === 1))
    throw new Unreadable(
      t('The file contradicts itself: {0} values a pixel, yet {1}; it is damaged.', samples, photometric),
    );
  return {
    width,
    height,
    samples,
    bitsAllocated,
    bitsStored,
    highBit,
    photometric,
    signed: wholeOf(dataSet, 'x00280103') === 1,
    planar: samples === 3 && wholeOf(dataSet, 'x00280006') === 1,
    frames: Math.max(1, Number(textOf(dataSet, 'x00280008') ?? 1) || 1),
    littleEndian: syntax !== bigEndian,
    wordPixels: dataSet.elements['x7fe00010']?.vr !== 'OB',
  };
}
