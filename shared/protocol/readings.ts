import type { ToldReadings } from '../agreement/told-readings.ts';

/** Params: `ReadingsParams`. Answer: `ReadingsResult`. What was read on the films of a case, or of all cases in its folder and below it. */
export const readingsRequest = 'ungula/readings';

/** Which files' readings are held against each other. */
export const readingsOf = ['case', 'folder'] as const;
export type ReadingsOf = (typeof readingsOf)[number];

export interface ReadingsParams {
  readonly textDocument: { readonly uri: string };
  readonly of: ReadingsOf;
}

export interface ReadingsResult extends ToldReadings {
  /** Version of the document; null for a file that is not open. */
  readonly version: number | null;
  readonly of: ReadingsOf;
  /** How many case files they are from. */
  readonly files: number;
  /** What is not among them, in a sentence; null where all are. */
  readonly lack: string | null;
}
