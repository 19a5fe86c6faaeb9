import type { DataSet } from 'dicom-parser';
import { numbersOf, textOf } from './dicom-elements.ts';
import { readDicomHeader } from './dicom-file.ts';
import { readWithin, type HeaderReader } from './header-reader.ts';
import { pictureKind } from './picture-kind.ts';
import { Unreadable } from './unreadable.ts';

/** What a DICOM film's file says of its own place in an archive (PS3.3 C.7.2.1, C.7.3.1, C.12.1). */
export interface ArchivedFilm {
  /** Study, series, class and instance: what another object refers to it by. */
  readonly study: string;
  readonly series: string;
  readonly sopClass: string;
  readonly instance: string;
  /** Whether it holds more than one picture; a film of the case is its first. */
  readonly isOfMany: boolean;
  /** What keeps the objects of one patient and one study together in an archive; null where the file does not say. */
  readonly kept: Readonly<Record<KeptTogether, string | null>>;
}

/** By the names of the attributes, PS3.6. */
export const keptTogether = {
  PatientID: 'x00100020',
  IssuerOfPatientID: 'x00100021',
  StudyID: 'x00200010',
  StudyDate: 'x00080020',
  StudyTime: 'x00080030',
  AccessionNumber: 'x00080050',
} as const;
export type KeptTogether = keyof typeof keptTogether;

/** What the file of a film refers to it by; null where it is no DICOM file or lacks one of the four. Never throws. */
export function archivedFilmIn(bytes: Uint8Array): ArchivedFilm | null {
  return readWithin(bytes, readArchivedFilm());
}

export function* readArchivedFilm(): HeaderReader<ArchivedFilm | null> {
  const beginning = yield { start: 0, length: 256 };
  if (pictureKind(beginning) !== 'dicom') return null;
  try {
    const { dataSet } = yield* readDicomHeader();
    return archivedFilm(dataSet);
  } catch (cause) {
    if (cause instanceof Unreadable) return null;
    throw cause;
  }
}

function archivedFilm(dataSet: DataSet): ArchivedFilm | null {
  const study = uidOf(dataSet, 'x0020000d');
  const series = uidOf(dataSet, 'x0020000e');
  const sopClass = uidOf(dataSet, 'x00080016');
  const instance = uidOf(dataSet, 'x00080018');
  if (!study || !series || !sopClass || !instance) return null;
  return {
    study,
    series,
    sopClass,
    instance,
    isOfMany: (numbersOf(dataSet, 'x00280008')?.[0] ?? 1) > 1,
    kept: Object.fromEntries(
      Object.entries(keptTogether).map(([name, tag]) => [name, plainOf(dataSet, tag)]),
    ) as ArchivedFilm['kept'],
  };
}

/** A UID, PS3.5 9.1: digits and points, 64 at most. */
function uidOf(dataSet: DataSet, tag: string): string | null {
  const text = textOf(dataSet, tag);
  return text !== null && text.length <= 64 && /^\d+(?:\.\d+)+$/.test(text) ? text : null;
}

/** One value of a short text. What is in another character set than ASCII would be read wrongly, and counts as not said. */
function plainOf(dataSet: DataSet, tag: string): string | null {
  const text = textOf(dataSet, tag);
  return text !== null && text.length <= 64 && /^[\u0020-\u005b\u005d-\u007e]+$/.test(text) ? text : null;
}
