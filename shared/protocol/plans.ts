/** Writes a heel cut into a plan. Params: `HeelParams`. Answer: `HeelResult`. */
export const heelRequest = 'ungula/heelInPlan';

export interface HeelParams {
  /** Version of the text that the client has; where the server has another one, it refuses. */
  readonly textDocument: { readonly uri: string; readonly version: number };
  /** Of the plan's header, from 0. */
  readonly line: number;
  readonly mm: number;
}

/** The edit, or null where no plan stands on that line any more or the text is another one. */
export interface HeelResult {
  readonly edit: {
    readonly range: { readonly start: HeelPlace; readonly end: HeelPlace };
    readonly newText: string;
  } | null;
}

interface HeelPlace {
  readonly line: number;
  readonly character: number;
}
