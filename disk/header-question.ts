import type { WordTable } from '../shared/language/words.ts';
import type { Looked } from '../shared/picture/picture-files.ts';
import type { ScaleFound } from '../shared/picture/stored-scale.ts';

/** Asked of the thread that reads headers. Paths are absolute. */
export interface HeaderQuestion {
  readonly id: number;
  readonly path: string;
  readonly roots: readonly string[];
  /** As the film writes it. */
  readonly name: string;
  /** A thread has words of its own. */
  readonly words: WordTable | undefined;
}

export interface HeaderAnswer {
  readonly id: number;
  readonly scale: Looked<ScaleFound>;
}
