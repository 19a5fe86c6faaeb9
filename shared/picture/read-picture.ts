import { t } from '../language/words.ts';
import type { ByteSource } from './byte-source.ts';
import { wholeOf } from './dicom-elements.ts';
import { readDicomHeader, type DicomFile } from './dicom-file.ts';
import { sideOf, type Laterality } from './dicom-side.ts';
import { spacingAttributes, spacingFrom, type Spacing } from './dicom-spacing.ts';
import { gifSize } from './gif-header.ts';
import { readFrom, readWithin, type HeaderReader } from './header-reader.ts';
import { readJpegHeader } from './jpeg-header.ts';
import { pictureKind, whyUnknown, type PictureKind } from './picture-kind.ts';
import { turnsOnItsSide, type Orientation, type StoredSize } from './picture-size.ts';
import { pngSize } from './png-header.ts';
import { tiffSize } from './tiff-directory.ts';
import { Unreadable, sentenceOf } from './unreadable.ts';
import { webpSize } from './webp-header.ts';

export type { PictureKind, Orientation, Spacing };

export interface PictureFacts {
  readonly kind: PictureKind;
  /** Pixels as shown: after the orientation. Null where the file is too broken to say. */
  readonly width: number | null;
  readonly height: number | null;
  readonly orientation: Orientation;
  /** Only DICOM files tell how large a pixel is; the resolution that PNG, JPEG and TIFF carry is that of a printer. */
  readonly spacing: Spacing | null;
  /** Why a DICOM file gives no spacing; null for other kinds, and where there is one. */
  readonly noSpacing: string | null;
  /** Which side a DICOM file says that the limb is of, where it says one. */
  readonly side?: Laterality;
  /** A sentence for the practitioner where the picture cannot be used, else null. */
  readonly problem: string | null;
}

/**
 * What the headers of a picture say; the picture itself is not decoded. A file that is broken or made to do harm gives a `problem`.
 * Rejects only where the source does.
 */
export function readPicture(source: ByteSource): Promise<PictureFacts> {
  return readFrom(source, pictureFacts());
}

/** The same of bytes that are in memory. Never throws. */
export function readPictureInMemory(bytes: Uint8Array): PictureFacts {
  return readWithin(bytes, pictureFacts());
}

/** Enough to tell the kinds apart. */
const beginning = 256;

function* pictureFacts(): HeaderReader<PictureFacts> {
  const bytes = yield { start: 0, length: beginning };
  const kind = pictureKind(bytes);
  try {
    if (kind === 'unknown') throw new Unreadable(whyUnknown(bytes));
    if (kind === 'dicom') return dicomFacts(yield* readDicomHeader());
    return shown(kind, yield* sizeOf[kind]());
  } catch (cause) {
    return {
      ...nothing(kind),
      problem: sentenceOf(cause, t('The file ends before it says how large its picture is; it is cut short.')),
    };
  }
}

const sizeOf: Readonly<Record<Exclude<PictureKind, 'unknown' | 'dicom'>, () => HeaderReader<StoredSize>>> = {
  png: pngSize,
  jpeg: readJpegHeader,
  webp: webpSize,
  gif: gifSize,
  tiff: tiffSize,
};

function nothing(kind: PictureKind): PictureFacts {
  return { kind, width: null, height: null, orientation: 1, spacing: null, noSpacing: null, problem: null };
}

function shown(kind: PictureKind, { width, height, orientation }: StoredSize): PictureFacts {
  if (width === 0 || height === 0)
    throw new Unreadable(t('The file says that its picture is 0 pixels wide or high; it is damaged.'));
  const turned = turnsOnItsSide(orientation);
  return { ...nothing(kind), width: turned ? height : width, height: turned ? width : height, orientation };
}

function dicomFacts({ dataSet }: DicomFile): PictureFacts {
  const width = wholeOf(dataSet, 'x00280011');
  const height = wholeOf(dataSet, 'x00280010');
  if (!width || !height)
    throw new Unreadable(t('This DICOM file holds no picture: it may be a report or a directory of a disc.'));
  const { spacing, why } = spacingFrom(spacingAttributes(dataSet));
  const side = sideOf(dataSet);
  return { ...nothing('dicom'), width, height, spacing, noSpacing: why, ...(side && { side }) };
}
