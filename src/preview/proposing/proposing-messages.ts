import type { FootInput } from '../../../shared/geometry/foot-input.ts';
import type { WordTable } from '../../../shared/language/words.ts';
import type { Proposed } from '../../../shared/proposals/from-film-before.ts';

/** What the page and the worker that proposes tell each other. Pictures by their addresses in the page. */

export interface PlacedPicture {
  readonly href: string;
  /** Places in pixels of the picture as the page counts them: the middle of the first lies at 0.5, 0.5. */
  readonly foot: FootInput;
}

export type ToProposer =
  /** Sent once for each picture, before it is asked about. */
  | { readonly type: 'picture'; readonly href: string; readonly file: Blob }
  | {
      readonly type: 'propose';
      readonly id: number;
      /** The film before; null on a foot's first film, where a typical foot says where to look. */
      readonly before: PlacedPicture | null;
      readonly now: PlacedPicture;
      /** A worker has words of its own: those of the page. */
      readonly words: WordTable | undefined;
    };

export interface FromProposer {
  readonly id: number;
  readonly proposed: Proposed;
}

/** What is used of a worker. */
export interface ProposingWorker {
  postMessage(question: ToProposer): void;
  addEventListener(kind: 'message', hear: (event: { readonly data: FromProposer }) => void): void;
  addEventListener(kind: 'error', hear: () => void): void;
  terminate(): void;
}
