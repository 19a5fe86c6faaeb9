import { once } from '../notation/once.ts';
import type { Reading } from '../record/schema.ts';

/** Whether a landmark of a reading was followed from the film before. */
export const isFollowing = once(({ placings }: Reading): boolean =>
  placings.some(({ followed }) => followed !== undefined),
);
