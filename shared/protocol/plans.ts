import type { HeelPart } from '../edits/heel-in-plan.ts';

/** Writes a heel cut into a plan. Params: `HeelParams`. Answer: `PlaceResult`. */
export const heelRequest = 'ungula/heelInPlan';

export interface HeelParams {
  /** Version of the text that the client has; where the server has another one, it refuses. */
  readonly textDocument: { readonly uri: string; readonly version: number };
  /** Of the plan's header, from 0. */
  readonly line: number;
  /** Which number; that of `heel down` where it is left out. */
  readonly part?: HeelPart;
  readonly mm: number;
}
