import type { NewPicture } from '../edits/film-notation.ts';

interface Position {
  readonly line: number;
  readonly character: number;
}

/** Params: `NewFilmsParams`. Answer: `NewFilmsResult`; null where the document is not open. */
export const newFilmsRequest = 'ungula/newFilms';

/** Pictures that somebody puts down at a place of a case file, by dropping or pasting. */
export interface NewFilmsParams {
  readonly textDocument: { readonly uri: string };
  readonly position: Position;
  readonly pictures: readonly NewPicture[];
  /** Names of files that stand in the folder `films` beside the case file already. */
  readonly taken: readonly string[];
}

export interface NewFilmsResult {
  /** What the snippet replaces. */
  readonly range: { readonly start: Position; readonly end: Position };
  /** In the editors' snippet syntax: foot and view are choices. */
  readonly snippet: string;
  /** For each picture where it has to be copied to, from the case file's folder; null where it stays where it is. */
  readonly copies: readonly (string | null)[];
}
