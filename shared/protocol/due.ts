import type { CaseDue } from '../views/due.ts';

/** No params. Answer: `DueResult`, once every case file of the open folders has been read; null where it could not be worked out. */
export const dueRequest = 'ungula/due';

/** From the server: the case files of the folders have changed, so that the answer may be another. */
export const casesChanged = 'ungula/casesChanged';

export interface DueOfCase extends CaseDue {
  readonly uri: string;
  /** Its path in the open folder. */
  readonly file: string;
}

/** The most urgent case first; those of which nothing waits are left out. */
export interface DueResult {
  /** How many case files were looked at. */
  readonly looked: number;
  /** How many of them could not be read, so that nobody knows what waits in them. */
  readonly unread: number;
  /** False where somebody stopped the reading, or there are more files than are read. */
  readonly isWhole: boolean;
  readonly cases: readonly DueOfCase[];
}
