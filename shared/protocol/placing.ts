import type { FilmAddress } from '../edits/place-on-film.ts';
import type { Placement } from '../edits/placing-schema.ts';

/** Places, moves or takes away landmarks, the ground line or the scale of a film. Params: `PlaceParams`. Answer: `PlaceResult`. */
export const placeRequest = 'ungula/place';

export interface PlaceParams {
  /** Version of the text that the client has; where the server has another one, it refuses. */
  readonly textDocument: { readonly uri: string; readonly version: number };
  readonly film: FilmAddress;
  readonly placements: readonly Placement[];
}

/** The server changes nothing itself: the client applies the edits, and only to the version they are for. */
export type PlaceResult =
  | { readonly kind: 'edits'; readonly version: number; readonly edits: readonly PlaceEdit[] }
  /** `stale`: the text has changed since; asked again with the new version, the answer may be another. */
  | { readonly kind: 'refused'; readonly says: string; readonly stale: boolean };

export interface PlaceEdit {
  readonly range: { readonly start: PlacePosition; readonly end: PlacePosition };
  readonly newText: string;
}

/** Line and UTF-16 character, both from 0. */
interface PlacePosition {
  readonly line: number;
  readonly character: number;
}
