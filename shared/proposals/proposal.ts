import type { XY } from '../geometry/vector.ts';
import type { LandmarkName } from '../notation/landmarks.ts';

/** Where a landmark of a new film may lie. It is nothing but a proposal: no measure is taken from it before a person confirms it. */
export interface Proposal {
  readonly name: LandmarkName;
  /** Pixels of the new film. */
  readonly at: XY;
  /**
   * One standard deviation, pixels of the new film: of what the proposing added, and of the placing that it was carried over from.
   * Of a point on a line across it: along it nothing tells it.
   */
  readonly spread: number;
  /** Of what the proposing added alone: two films that share the first placing differ by no more than this. */
  readonly added: number;
  /** The picture told it, and nothing speaks against it. */
  readonly distinct: boolean;
  /** `carried`: by the other places alone; the picture did not tell. `typical`: where it lies on a typical foot. */
  readonly by: 'patch' | 'line' | 'bone' | 'edge' | 'carried' | 'typical';
  /** In a sentence. */
  readonly why: string;
}
