import type { CaseGrounds } from '../report/pages/page-maker.ts';

/** Params: `PageGroundsParams`. Answer: `PageGrounds`. For a client that makes pages of an open case in another process. */
export const pageGroundsRequest = 'ungula/pageGrounds';

export interface PageGroundsParams {
  readonly textDocument: { readonly uri: string };
}

export interface PageGrounds extends CaseGrounds {
  /** Version of the document; null for a file that is not open. */
  readonly version: number | null;
}
