import type { FilmSheet } from './film-sheet.ts';

/** What a client may ask the language server beside the protocol's own requests. */
export const sheetsRequest = 'ungula/sheets';

export interface SheetsParams {
  readonly textDocument: { readonly uri: string };
}

export interface SheetsResult {
  /** Version of the document that the sheets are of; null for a file that is not open. */
  readonly version: number | null;
  readonly caseName: string | null;
  readonly sheets: readonly FilmSheet[];
}
