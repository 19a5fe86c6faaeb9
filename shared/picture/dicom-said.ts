import type { DataSet } from 'dicom-parser';
import { itemsOf, textOf } from './dicom-elements.ts';
import { readDicomHeader } from './dicom-file.ts';
import { sideOf, type Laterality } from './dicom-side.ts';
import { spacingAttributes, spacingFrom } from './dicom-spacing.ts';
import { readWithin, type HeaderReader } from './header-reader.ts';
import { pictureKind } from './picture-kind.ts';
import { Unreadable } from './unreadable.ts';

/**
 * What a DICOM file says of a film of a foot: nothing but a day and words of this list, so that no text of the file, and nothing
 * of the patient, goes any further.
 */
export interface SaidOfFilm {
  /** `YYYY-MM-DD`: when the picture was taken. */
  readonly taken: string | null;
  /** A scale is stated that holds at the foot, not at the detector or nobody knows where. */
  readonly scale: boolean;
  readonly side: Laterality | null;
  readonly limb: Limb | null;
  readonly view: 'lateral' | 'front' | null;
}

export type Limb = 'fore' | 'hind';

/** Of a file in memory; null where it is no DICOM file or cannot be read. Never throws. */
export function saidInFile(bytes: Uint8Array): SaidOfFilm | null {
  return readWithin(bytes, readSaid());
}

export function* readSaid(): HeaderReader<SaidOfFilm | null> {
  const beginning = yield { start: 0, length: 256 };
  if (pictureKind(beginning) !== 'dicom') return null;
  try {
    const { dataSet } = yield* readDicomHeader();
    return said(dataSet);
  } catch (cause) {
    if (cause instanceof Unreadable) return null;
    throw cause;
  }
}

function said(dataSet: DataSet): SaidOfFilm {
  const { spacing } = spacingFrom(spacingAttributes(dataSet));
  const views = codesIn(dataSet, 'x00540220');
  return {
    taken: dayTaken(dataSet),
    scale: spacing !== null && spacing.overstates === undefined,
    side: sideOf(dataSet),
    limb: limbOf([...codesIn(dataSet, 'x00082218'), ...codesIn(dataSet, 'x00082228'), ...views]),
    view: viewOf(dataSet, views),
  };
}

/**
 * Acquisition Date (0008,0022) or DateTime (0008,002A), else Study Date (0008,0020), else Content Date (0008,0023): PS3.3 C.7.6.1,
 * C.7.10.1, C.7.2.1. The first that is a day. Content comes last: of a picture that was derived or sent on it is that day.
 */
function dayTaken(dataSet: DataSet): string | null {
  for (const tag of ['x00080022', 'x0008002a', 'x00080020', 'x00080023']) {
    const day = dayIn(textOf(dataSet, tag) ?? '');
    if (day !== null) return day;
  }
  return null;
}

/** The day of a DA or a DT (PS3.5 6.2); with points, as the standard before the third version had it. */
function dayIn(text: string): string | null {
  const [, year = '', month = '', day = ''] =
    /^(\d{4})(\d\d)(\d\d)(?:\d*(?:\.\d+)?(?:[+-]\d{4})?)?$/.exec(text) ?? /^(\d{4})\.(\d\d)\.(\d\d)$/.exec(text) ?? [];
  const written = `${year}-${month}-${day}`;
  const time = Date.parse(`${written}T00:00:00Z`);
  return Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== written ? null : written;
}

/**
 * Which limb a code tells of. Regions: CID 7482 DX Anatomy Imaged for Animals. Views: CID 7484 DX View for Animals, where palmar is of
 * the fore limb and plantar of the hind limb. Each by SNOMED CT and by the older letters of the same code (PS3.16 8.1.1).
 */
const limbs: Readonly<Record<string, Limb>> = {
  ...rowsOf('fore', [
    ['419176008', 'T-D04F2'], // Forefoot
    ['31329001', 'T-D8650'], // Pastern of forefoot
    ['30518006', 'T-12450'], // Navicular of forefoot
    ['13190002', 'T-D8640'], // Fetlock of forelimb
    ['441505008', 'R-40AA9'], // Dorsopalmar
  ]),
  ...rowsOf('hind', [
    ['416804009', 'T-D9713'], // Hindfoot
    ['18525008', 'T-D9550'], // Pastern of hindfoot
    ['75772009', 'T-12800'], // Navicular of hindfoot
    ['113351006', 'T-D9540'], // Fetlock of hindlimb
    ['399335002', 'R-102C4'], // Dorsoplantar
  ]),
};

/** CID 7484, and `lateral` of CID 4010 DX View. Oblique ones are no view of a case. */
const views: Readonly<Record<string, 'lateral' | 'front'>> = {
  ...rowsOf('lateral', [
    ['399352003', 'R-10228'], // Lateromedial
    ['399260004', 'R-10224'], // Mediolateral
    ['399067008', 'R-102CD'], // Lateral
  ]),
  ...rowsOf('front', [
    ['441505008', 'R-40AA9'], // Dorsopalmar
    ['399335002', 'R-102C4'], // Dorsoplantar
  ]),
};

function rowsOf<Word>(word: Word, codes: readonly (readonly [string, string])[]): Record<string, Word> {
  return Object.fromEntries(
    codes.flatMap(([sct, srt]) => [[`SCT ${sct}`, word] as const, [`SRT ${srt}`, word] as const]),
  );
}

/** The codes of a sequence's items (PS3.3 8.8), `SCT 419176008`; those of other schemes name nothing that is looked for. */
function codesIn(dataSet: DataSet, tag: string): readonly string[] {
  return itemsOf(dataSet, tag).map((item) => {
    const scheme = textOf(item, 'x00080102') ?? '';
    // The older letters were written under three names (PS3.16 8.1).
    return `${['SNM3', '99SDM'].includes(scheme) ? 'SRT' : scheme} ${textOf(item, 'x00080100') ?? ''}`;
  });
}

/** Null where nothing is said, and where two things are. */
function limbOf(codes: readonly string[]): Limb | null {
  const [limb, ...others] = new Set(codes.flatMap((code) => (Object.hasOwn(limbs, code) ? [limbs[code]] : [])));
  return limb !== undefined && others.length === 0 ? limb : null;
}

/**
 * View Code (0054,0220), PS3.3 C.8.11.5; one that is modified (0054,0222) is another view. Else View Position (0018,5101), C.8.1.1: left
 * or right lateral. Its other terms, AP and PA, are those of an upright body and say nothing certain of a hoof.
 */
function viewOf(dataSet: DataSet, codes: readonly string[]): 'lateral' | 'front' | null {
  if (codes.length > 0) {
    const [code = ''] = codes;
    const isModified = itemsOf(dataSet, 'x00540220').some((item) => itemsOf(item, 'x00540222').length > 0);
    return codes.length === 1 && !isModified && Object.hasOwn(views, code) ? (views[code] ?? null) : null;
  }
  return /^(?:LL|RL)$/.test(textOf(dataSet, 'x00185101') ?? '') ? 'lateral' : null;
}
