import { say } from '../findings/wording/wording.ts';
import type { Inspection } from '../findings/inspect.ts';
import { isLesson, isWithheld } from '../findings/withheld.ts';
import type { XY } from '../geometry/vector.ts';
import { minus } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import { keyRefusalWords } from '../lessons/key-refusal.ts';
import { filmAcross, keyFilms, type KeyFilm } from '../lessons/marked-case.ts';
import { markedReading, offTheLine, type MarkedMeasure, type MarkedReading } from '../lessons/marked-reading.ts';
import { isSameFilm } from '../lessons/same-film.ts';
import { findMeasure } from '../measures/registry.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { Refusal } from '../picture/picture-files.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';
import { filmSheets, type CutSheet, type FilmSheet } from './film-sheet.ts';
import { laidFilm, type LaidFilm } from './laid-over.ts';
import { nameOfLandmark } from './landmark-names.ts';
import { length, lineWords, middleWords, wayWords } from './marked-lines.ts';

/** The key of a lesson as far as it is known: whole, why it is not read, or null where that is being found out or nobody can look. */
export type FoundKey = { readonly inspection: Inspection } | { readonly refused: Refusal } | null;

/** How one place or measure stands to the key's. */
export type AgainstKey = 'agrees' | 'off' | 'missing';

/** A place of the key with the student's, on the picture that both have. */
export interface LessonPoint {
  readonly landmark: LandmarkName;
  readonly words: string;
  readonly state: AgainstKey;
  /** `5.0 mm`; empty where it is not placed. */
  readonly distance: string;
  /** `4.0 mm too low and 3.0 mm too far to the toe`; empty where it agrees, and where the key does not say how the foot lies. */
  readonly way: string;
  /** How far off still agrees. */
  readonly allowed: string;
  /** Pixels. Of a landmark that lies anywhere on a line, the place on it nearest to the student's. */
  readonly key: XY;
  readonly own: XY | null;
}

export interface LessonMeasure {
  readonly measure: string;
  readonly words: string;
  readonly state: AgainstKey;
  /** Empty where the student's places do not give it. */
  readonly own: string;
  readonly key: string;
  /** `2.1° too large`; empty without a value. */
  readonly difference: string;
}

/** What a student's reading says against the key's. */
export interface LessonMarks {
  /** `9 of 12 places agree with the key; half of them lie within 0.4 mm.` */
  readonly summary: string;
  /** The furthest off first, then what is not placed, then what agrees. */
  readonly points: readonly LessonPoint[];
  /** What is placed and not in the key. */
  readonly beyond: readonly string[];
  /** What ground line and scale do to all numbers, a sentence each. */
  readonly lines: readonly string[];
  /** What differs clearly first. */
  readonly measures: readonly LessonMeasure[];
  /** The key's plans and trims on this film, and what they are drawn on: the key's places. */
  readonly cuts: readonly CutSheet[];
  readonly film: LaidFilm | null;
}

/** A film of a lesson. Until the key is shown, nothing of it is here. */
export interface LessonSheet {
  /** `teacher.hoof, read by Rowan`. */
  readonly key: string;
  readonly isShown: boolean;
  /** How many places the student has put. */
  readonly placed: number;
  /** Why nothing can be held against it; null where it can, or where nobody knows yet. */
  readonly says: string | null;
  /** Null until it is shown, and where there is nothing to hold against. */
  readonly marks: LessonMarks | null;
}

/** What a reading of a film is in its case: the student's in a lesson, the key's own, or neither. */
export function lessonPart(
  { study }: Pick<Inspection, 'study'>,
  key: FoundKey,
): (film: StudiedFilm, reading: StudiedReading) => 'student' | 'key' | null {
  const own = study.record.animal?.is.key;
  if (!own || !isLesson(study)) return () => null;
  return (film, { reading: { reader } }) => {
    if (!own.file && own.by?.text === reader) return 'key';
    // A key that is not to be had keeps values back all the same: a teacher may hand out the sheets and keep the key.
    if (!key || 'refused' in key || !hasReadings(study, key.inspection)) return 'student';
    return keyFor(study, key.inspection, film) ? 'student' : null;
  };
}

function hasReadings(student: Inspection['study'], { study }: Inspection): boolean {
  return keyFilms(study, student.record.animal?.is.key?.by?.text ?? null).length > 0;
}

/** The key's reading of a film; null where it has none. */
function keyFor(student: Inspection['study'], { study }: Inspection, film: StudiedFilm): KeyFilm | null {
  const by = student.record.animal?.is.key?.by?.text ?? null;
  return keyFilms(study, by).find((one) => isSameFilm(filmAcross(one.film), filmAcross(film))) ?? null;
}

export function lessonSheet(
  { study }: Inspection,
  key: FoundKey,
  film: StudiedFilm,
  reading: StudiedReading,
  isShown: boolean,
): LessonSheet {
  const own = study.record.animal?.is.key;
  const file = own?.file?.text ?? null;
  const by = own?.by?.text ?? null;
  const words =
    file === null ? t('the reading by {0}', by ?? '') : by === null ? file : t('{0}, read by {1}', file, by);
  const known = isShown && key && 'inspection' in key ? key.inspection : null;
  const right = known && keyFor(study, known, film);
  return {
    key: words,
    isShown,
    placed: reading.reading.placings.length,
    says: !key
      ? null
      : 'refused' in key
        ? keyRefusalWords(key.refused, file ?? '')
        : hasReadings(study, key.inspection)
          ? null
          : t('The key has no such reading yet.'),
    marks: known && right ? lessonMarks(known, right, reading) : null,
  };
}

function lessonMarks(known: Inspection, right: KeyFilm, student: StudiedReading): LessonMarks {
  const marked = markedReading(right.reading, student, null);
  const agree = marked.points.filter(({ agrees }) => agrees).length;
  const placed = marked.points.filter(({ off }) => off !== null);
  const [sheet = null] = filmSheets(known, (film, one) => film === right.film && one === right.reading);
  return {
    summary: t('{0} of {1} places agree with the key{2}.', agree, marked.points.length, middleWords(placed)),
    points: pointsOf(marked, right.reading, student),
    beyond: marked.beyondKey.map(nameOfLandmark),
    lines: lineWords(marked).map((line) => line.trim()),
    measures: marked.measures.map(measureOf).toSorted((a, b) => order[a.state] - order[b.state]),
    cuts: sheet?.cuts ?? [],
    film: sheet && laidFilm(sheet),
  };
}

const order: Readonly<Record<AgainstKey, number>> = { off: 0, missing: 1, agrees: 2 };

function pointsOf({ points }: MarkedReading, key: StudiedReading, student: StudiedReading): LessonPoint[] {
  const places = new Map(key.input.landmarks.map(({ name, x, y }) => [name, { x, y }] as const));
  const told = points.flatMap(({ landmark, off, agrees, tolerance, unit }) => {
    const right = places.get(landmark);
    if (!right) return [];
    const own = student.input.landmarks.find(({ name }) => name === landmark);
    const state: AgainstKey = agrees ? 'agrees' : off ? 'off' : 'missing';
    const point: LessonPoint = {
      landmark,
      words: nameOfLandmark(landmark),
      state,
      distance: off ? length(off.distance, unit) : '',
      way: off && !agrees ? wayWords(off, unit) : '',
      allowed: length(tolerance, unit),
      key: own ? minus(own, offTheLine(minus(own, right), landmark, places)) : right,
      own: own ? { x: own.x, y: own.y } : null,
    };
    return [{ point, far: off?.distance ?? 0 }];
  });
  return told
    .toSorted((a, b) => order[a.point.state] - order[b.point.state] || b.far - a.far)
    .map(({ point }) => point);
}

function measureOf({ measure, unit, key, student, agrees }: MarkedMeasure): LessonMeasure {
  const by = student === null ? 0 : student - key;
  const size = say(Math.abs(by), unit);
  return {
    measure,
    words: findMeasure(measure)?.words ?? measure,
    state: student === null ? 'missing' : agrees ? 'agrees' : 'off',
    own: student === null ? '' : say(student, unit),
    key: say(key, unit),
    difference: student === null ? '' : by > 0 ? t('{0} too large', size) : t('{0} too small', size),
  };
}

/** The sheet of a lesson's film as it is before the key is shown: what is placed and said, and no value. */
export function withheldSheet(sheet: FilmSheet): FilmSheet {
  return {
    ...sheet,
    rows: [],
    unmeasured: [],
    notes: sheet.notes.filter((note) => !isWithheld(note)),
    cuts: sheet.cuts.map((cut) => ({
      ...cut,
      taken: null,
      delta: null,
      deltaOnToe: null,
      after: null,
      predicted: {},
      rows: [],
      broken: [],
      notes: cut.notes.filter((note) => !isWithheld(note)),
    })),
  };
}
