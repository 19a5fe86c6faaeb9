import type { JudgedAnimal } from '../reference/bands.ts';
import type { AlarmNote } from '../views/alarms.ts';
import type { FilmSheet } from '../views/film-sheet.ts';
import type { PairSheet } from '../views/pair-sheet.ts';
import type { TapeSheet } from '../views/tape-sheet.ts';
import type { Yardsticks } from '../views/yardsticks.ts';
import type { VisitSheet } from '../views/visit-sheet.ts';

/** What a client may ask the language server beside the protocol's own requests. */
export const sheetsRequest = 'ungula/sheets';

/** Told by the server when the sheets of open cases are others than before although no text changed: a picture was looked at. */
export const sheetsChanged = 'ungula/sheetsChanged';

export interface SheetsParams {
  readonly textDocument: { readonly uri: string };
}

export interface SheetsResult {
  /** Version of the document that the sheets are of; null for a file that is not open. */
  readonly version: number | null;
  readonly caseName: string | null;
  /** What the size and shape of its feet go by. */
  readonly animal: JudgedAnimal;
  /** What is open, to be shown before what is planned. */
  readonly alarms: readonly AlarmNote[];
  readonly sheets: readonly FilmSheet[];
  /** What the measures of each foot and view are held against. */
  readonly yardsticks: Yardsticks;
  readonly visits: readonly VisitSheet[];
  /** What was taken by hand. */
  readonly tapes: readonly TapeSheet[];
  /** Left and right of a pair, where both were filmed at one visit. */
  readonly pairs: readonly PairSheet[];
}
