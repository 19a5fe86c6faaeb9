import type { FootAtCursor } from '../views/foot-state.ts';

/** Params: `FootStateParams`. Answer: `FootAtCursor`, or null where there is nothing to be said. */
export const footStateRequest = 'ungula/footState';

export interface FootStateParams {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

export type FootStateResult = FootAtCursor | null;
