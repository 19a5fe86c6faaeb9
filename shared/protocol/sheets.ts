import type { JudgedAnimal } from '../reference/bands.ts';
import type { AlarmNote } from '../views/alarms.ts';
import type { FilmBefore } from '../views/film-before.ts';
import type { FilmLook, ListedFilm } from '../views/film-choice.ts';
import type { LaidFilm } from '../views/laid-over.ts';
import type { LessonSheet } from '../views/lesson-sheet.ts';
import type { PairSheet } from '../views/pair-sheet.ts';
import type { TapeSheet } from '../views/tape-sheet.ts';
import type { VisitSheet } from '../views/visit-sheet.ts';
import type { FilmSheet } from '../views/whole-sheet.ts';

/** What a client may ask the language server beside the protocol's own requests. */
export const sheetsRequest = 'ungula/sheets';

/** Told by the server when the sheets of open cases are others than before although no text changed: a picture was looked at. */
export const sheetsChanged = 'ungula/sheetsChanged';

export interface SheetsParams {
  readonly textDocument: { readonly uri: string };
  /** What a person looks at: only that is made whole. Without it the sheets of all films come. */
  readonly look?: FilmLook;
}

export interface SheetsResult {
  /** Version of the document that the sheets are of; null for a file that is not open. */
  readonly version: number | null;
  readonly caseName: string | null;
  /** What the size and shape of its feet go by. */
  readonly animal: JudgedAnimal;
  /** What is open, to be shown before what is planned. */
  readonly alarms: readonly AlarmNote[];
  /** Every reading of every film in short, in the order of the text. */
  readonly films: readonly ListedFilm[];
  /** The film that is looked at; null where there is none, or where nothing was said of a look. */
  readonly sheet: FilmSheet | null;
  /** The film that is laid over it; null for none. */
  readonly over: LaidFilm | null;
  /** What places on the film that is looked at may be proposed from; null for none. */
  readonly before: FilmBefore | null;
  /** Of the film that is looked at; null where it is none of a lesson. */
  readonly lesson: LessonSheet | null;
  /** The case is a lesson, and the key of some film is not shown: values of it, and what compares films, are kept back. */
  readonly keepsBack: boolean;
  /** Whole, in the order of `films`; empty where a look was given. */
  readonly sheets: readonly FilmSheet[];
  readonly visits: readonly VisitSheet[];
  /** What was taken by hand: all, or where a film is looked at what was at its visit. */
  readonly tapes: readonly TapeSheet[];
  /** Left and right of a pair, where both were filmed at one visit; those of the visit that is looked at. */
  readonly pairs: readonly PairSheet[];
}
