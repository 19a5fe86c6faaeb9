/** Writes a heel cut into a plan. Params: `HeelParams`. Answer: `PlaceResult`. */
export const heelRequest = 'ungula/heelInPlan';

export interface HeelParams {
  /** Version of the text that the client has; where the server has another one, it refuses. */
  readonly textDocument: { readonly uri: string; readonly version: number };
  /** Of the plan's header, from 0. */
  readonly line: number;
  readonly mm: number;
}
