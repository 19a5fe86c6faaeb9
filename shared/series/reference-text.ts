import { measures } from '../measures/registry.ts';
import { bands, fullHeightMm } from '../reference/bands.ts';
import type { OwnSet } from '../reference/own-set.ts';

/** What the usual ranges of a series rest on, as a text of which a digest is taken: the same in every language. */
export function referenceText(): string {
  return JSON.stringify({
    fullHeightMm,
    measures: measures.map(({ name, unit, plane, needs, byHand }) => ({ name, unit, plane, needs, byHand })),
    bands: bands.map(({ measure, feet, animals, scales, lightOnly = false, thresholds }) => ({
      measure,
      feet,
      animals,
      scales,
      lightOnly,
      thresholds: thresholds.map(({ side, at, severity, source, strength, grownOnly = false }) => ({
        side,
        at,
        severity,
        source,
        strength,
        grownOnly,
      })),
    })),
  });
}

/** The same of sets of one's own: their lines, and nothing of whose they are. */
export const ownReferenceText = (sets: readonly OwnSet[]): string =>
  JSON.stringify(
    sets.map(({ bands: own }) =>
      own.map(({ measure, feet, animals, low, high, severity }) => ({ measure, feet, animals, low, high, severity })),
    ),
  );
