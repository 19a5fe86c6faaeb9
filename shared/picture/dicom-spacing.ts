import { t } from '../language/words.ts';
import type { DataSet } from 'dicom-parser';
import { itemsOf, textOf } from './dicom-elements.ts';
import { toldValue } from './told-value.ts';

/**
 * The attributes that say how large a pixel is, each as its text (values divided by a backslash), null where absent.
 * Lengths are in mm. All spacings are row spacing \ column spacing (PS3.3 10.7.1.3).
 */
export interface SpacingAttributes {
  /** (0028,0030), PS3.3 10.7.1.1; of a cross-section PS3.3 C.7.6.2. */
  readonly pixelSpacing: string | null;
  /** (0028,0A02), PS3.3 10.7.1.2: FIDUCIAL or GEOMETRY. */
  readonly calibrationType: string | null;
  /** (0018,1164), PS3.3 C.8.11.4: at the front of the detector, never corrected. */
  readonly imagerPixelSpacing: string | null;
  /** (0018,1114), PS3.3 C.8.11.5: source to detector over source to object. */
  readonly magnificationFactor: string | null;
  /** (0018,1110), mm. */
  readonly sourceToDetector: string | null;
  /** (0018,1111), mm: to the side of the table, stand or plate that is nearest to the patient. */
  readonly sourceToPatient: string | null;
  /** (0018,2010), PS3.3 C.8.6: on the film that was scanned. */
  readonly nominalScannedPixelSpacing: string | null;
  /** (0028,0034): vertical \ horizontal, for pictures without a spacing. */
  readonly pixelAspectRatio: string | null;
  /** (0008,0060). */
  readonly modality: string | null;
}

export type SpacingHow =
  | 'calibrated by an object'
  | 'corrected by geometry'
  | 'corrected, how unsaid'
  | 'in the plane of the section'
  | 'stated without a plane'
  | 'detector divided by the magnification factor'
  | 'detector divided by the distances'
  | 'at the detector'
  | 'on the scanned film';

export interface Spacing {
  readonly mmPerPx: number;
  readonly how: SpacingHow;
  /** One or two sentences for the practitioner: where the number is from and how far it can be trusted. */
  readonly words: string;
  /** Where it may hold at the detector and not at the foot: by how many per cent lengths may then be too long. */
  readonly overstates?: Overstates;
}

/** Per cent, the least and the most. */
export type Overstates = readonly [number, number];

/** One of the two is null. */
export type SpacingResult =
  { readonly spacing: Spacing; readonly why: null } | { readonly spacing: null; readonly why: string };

/** Row and column spacing further apart than this share make the pixels oblong: angles would be wrong, not only lengths. */
const squareWithin = 0.001;
/** A foot on its plate gives 1.02 to 1.3. Beyond 3 the number is a percentage or a slip. */
const mostMagnification = 3;
/**
 * mm a pixel that a picture of a foot can have, as for a scale that is written: from a film scanned at 4,800 points an inch to a
 * foot that is two dozen pixels long. What lies beyond is a slip of the pen or of the unit.
 */
const plausible = { least: 0.005, most: 5 } as const;
/** mm between the tube and what it looks at: a centimetre to twenty metres. */
const plausibleDistance = { least: 10, most: 20_000 } as const;
/** Modalities whose pixel spacing lies in the section itself (Image Plane Module, PS3.3 C.7.6.2), so nothing is magnified. */
const sections = new Set(['CT', 'MR', 'PT', 'NM']);

/**
 * mm a pixel from the attributes, by this precedence (PS3.3 10.7):
 * 1. Pixel Spacing that is calibrated: a calibration type is given (10.7.1.2), or it differs from the detector's or scanner's spacing (10.7.1.1);
 * 2. Imager Pixel Spacing over the magnification factor (C.8.11.5), or over source-detector / source-patient;
 * 3. Imager Pixel Spacing as it is: at the detector, larger than the foot by the magnification;
 * 4. Nominal Scanned Pixel Spacing: on the film, with the film's magnification still in it;
 * 5. Pixel Spacing of which nothing tells whether it was corrected (10.7.1.1, last paragraph), or that of a section.
 * Pixel Spacing that equals Imager Pixel Spacing and has no calibration type is detector spacing (10.7.1.1).
 */
export function spacingFrom(given: SpacingAttributes): SpacingResult {
  const pixel = spacingPair(given.pixelSpacing, 'Pixel Spacing');
  const imager = spacingPair(given.imagerPixelSpacing, 'Imager Pixel Spacing');
  const scanned = spacingPair(given.nominalScannedPixelSpacing, 'Nominal Scanned Pixel Spacing');

  if (pixel?.why === null) {
    const found = calibrated(given, pixel.value, imager?.value ?? scanned?.value ?? null);
    if (found) return square(pixel.value, 1, found.how, found.words);
  }
  if (imager?.why === null) return atDetector(given, imager.value);
  if (scanned?.why === null) {
    return square(
      scanned.value,
      1,
      'on the scanned film',
      t(
        'The scale is that of the film when it was scanned. The foot was magnified on the film, so lengths come out too long unless the magnification is taken off.',
      ),
      overstated(given),
    );
  }
  if (pixel?.why === null) {
    if (given.modality !== null && sections.has(given.modality))
      return square(
        pixel.value,
        1,
        'in the plane of the section',
        t('The scale is that of the section itself, which is not magnified.'),
      );
    return square(
      pixel.value,
      1,
      'stated without a plane',
      t(
        'The file gives a scale but not whether it holds at the foot or at the plate. If at the plate, lengths come out too long by the magnification: check it against an object of known length.',
      ),
      [0, overstated(given)[1]],
    );
  }
  const unreadable = pixel?.why ?? imager?.why ?? scanned?.why;
  if (unreadable) return { spacing: null, why: unreadable };
  const aspect = pair(given.pixelAspectRatio, 'Pixel Aspect Ratio');
  if (aspect?.why === null && isOblong(aspect.value))
    return {
      spacing: null,
      why: t(
        'The pixels of this picture are not square ({0} to {1}), so neither lengths nor angles can be measured in it.',
        aspect.value.row,
        aspect.value.column,
      ),
    };
  return {
    spacing: null,
    why: t('The file does not say how large a pixel is.'),
  };
}

/** The attributes of a parsed file; those of a multi-frame file are read from its shared functional groups (PS3.3 C.7.6.16.2.1). */
export function spacingAttributes(dataSet: DataSet): SpacingAttributes {
  const measures = itemsOf(dataSet, 'x52009229').flatMap((group) => itemsOf(group, 'x00289110'))[0];
  return {
    pixelSpacing: textOf(dataSet, 'x00280030') ?? (measures ? textOf(measures, 'x00280030') : null),
    calibrationType: textOf(dataSet, 'x00280a02'),
    imagerPixelSpacing: textOf(dataSet, 'x00181164'),
    magnificationFactor: textOf(dataSet, 'x00181114'),
    sourceToDetector: textOf(dataSet, 'x00181110'),
    sourceToPatient: textOf(dataSet, 'x00181111'),
    nominalScannedPixelSpacing: textOf(dataSet, 'x00182010'),
    pixelAspectRatio: textOf(dataSet, 'x00280034'),
    modality: textOf(dataSet, 'x00080060'),
  };
}

interface SpacingPair {
  readonly row: number;
  readonly column: number;
}

/** How Pixel Spacing was corrected, or null where it was not or nothing tells. */
function calibrated(
  given: SpacingAttributes,
  pixel: SpacingPair,
  uncorrected: SpacingPair | null,
): Pick<Spacing, 'how' | 'words'> | null {
  if (given.calibrationType === 'FIDUCIAL') {
    return {
      how: 'calibrated by an object',
      words: t('The scale was set by an object of known size in the picture, and holds at the depth of that object.'),
    };
  }
  if (given.calibrationType === 'GEOMETRY') {
    return {
      how: 'corrected by geometry',
      words: t(
        'The scale was corrected for magnification from the distances of the set-up, and holds at the depth that was assumed.',
      ),
    };
  }
  if (uncorrected === null) return null;
  if (same(pixel, uncorrected)) return null;
  return {
    how: 'corrected, how unsaid',
    words: t(
      'The scale was corrected for magnification, but the file does not say by what. It holds at one depth only: check it against an object of known length.',
    ),
  };
}

function atDetector(given: SpacingAttributes, imager: SpacingPair): SpacingResult {
  const factor = positive(given.magnificationFactor);
  if (factor !== null && factor >= 1 && factor <= mostMagnification) {
    return square(
      imager,
      factor,
      'detector divided by the magnification factor',
      t('The scale is that of the detector divided by the magnification that the file gives ({0}).', rounded(factor)),
    );
  }
  const detector = distance(given.sourceToDetector);
  const patient = distance(given.sourceToPatient);
  if (detector !== null && patient !== null && detector >= patient && detector / patient <= mostMagnification) {
    const magnification = detector / patient;
    return square(
      imager,
      magnification,
      'detector divided by the distances',
      t(
        'The scale is that of the detector divided by the magnification from the distances in the file: {0} / {1} = {2}. It holds at that distance from the source, which is often the surface of the stand, not the middle of the foot.',
        rounded(detector),
        rounded(patient),
        magnification.toFixed(3),
      ),
    );
  }
  return square(
    imager,
    1,
    'at the detector',
    t(
      'The scale is that of the detector. The foot stands in front of it and is magnified, so lengths come out too long unless the magnification is taken off.',
    ),
    overstated(given),
  );
}

/** mm from the middle of the foot to the detector, and from the tube to it where the file does not say. Common practice, no source. */
const usualSetUp = { foot: { near: 50, far: 150 }, tube: { near: 750, far: 1000 } } as const;

/** A length is magnified by the way from tube to detector over that from tube to foot. */
function overstated(given: SpacingAttributes): Overstates {
  const { foot, tube } = usualSetUp;
  const stated = distance(given.sourceToDetector);
  const known = stated !== null && stated > 2 * foot.far ? stated : null;
  const by = (toDetector: number, toFoot: number): number => Math.round((100 * toFoot) / (toDetector - toFoot));
  return [by(known ?? tube.far, foot.near), by(known ?? tube.near, foot.far)];
}

function square(
  spacing: SpacingPair,
  magnification: number,
  how: SpacingHow,
  words: string,
  overstates?: Overstates,
): SpacingResult {
  if (isOblong(spacing)) {
    return {
      spacing: null,
      why: t(
        'The pixels of this picture are not square ({0} mm from row to row, {1} mm from column to column), so one scale cannot hold for it. Export it with square pixels.',
        rounded(spacing.row),
        rounded(spacing.column),
      ),
    };
  }
  const mmPerPx = (spacing.row + spacing.column) / 2 / magnification;
  if (!isWithin(mmPerPx, plausible)) return { spacing: null, why: implausible('scale', mmPerPx) };
  return { spacing: { mmPerPx, how, words, ...(overstates && { overstates }) }, why: null };
}

function isOblong({ row, column }: SpacingPair): boolean {
  return Math.abs(row - column) > squareWithin * Math.max(row, column);
}

/** Equal as numbers: writers pad the same value with zeros in one attribute and not in the other. */
function same(a: SpacingPair, b: SpacingPair): boolean {
  const near = (x: number, y: number): boolean => Math.abs(x - y) <= 1e-6 * Math.max(x, y);
  return near(a.row, b.row) && near(a.column, b.column);
}

type Read = { readonly value: SpacingPair; readonly why: null } | { readonly value: null; readonly why: string };

function pair(text: string | null, name: string): Read | null {
  if (text === null) return null;
  const parts = text.split('\\');
  const [row, column] = parts.map(positive);
  if (parts.length !== 2 || !row || !column)
    return {
      value: null,
      why: t('The file\'s {0} reads "{1}", which is not two lengths, so it gives no scale.', name, toldValue(text)),
    };
  return { value: { row, column }, why: null };
}

/** Two lengths that a pixel of a foot can have. */
function spacingPair(text: string | null, name: string): Read | null {
  const read = pair(text, name);
  if (read?.why !== null) return read;
  const odd = [read.value.row, read.value.column].find((length) => !isWithin(length, plausible));
  return odd === undefined ? read : { value: null, why: implausible(name, odd) };
}

function implausible(name: string, mm: number): string {
  return t(
    "By the file's {0} a pixel is {1} mm large, which no picture of a foot has ({2} to {3} mm), so it gives no scale.",
    name,
    rounded(mm),
    plausible.least,
    plausible.most,
  );
}

function isWithin(value: number, { least, most }: { readonly least: number; readonly most: number }): boolean {
  return value >= least && value <= most;
}

function distance(text: string | null): number | null {
  const mm = positive(text);
  return mm !== null && isWithin(mm, plausibleDistance) ? mm : null;
}

/** A decimal string (PS3.5 6.2, VR DS) that is more than zero, else null. */
function positive(text: string | null): number | null {
  if (text === null || !/^\s*\+?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*$/.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) && value > 0 ? value : null;
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(6)));
}
