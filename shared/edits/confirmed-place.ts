import { spreadInPixels, type FootInput } from '../geometry/foot-input.ts';
import type { Proposal } from '../proposals/proposal.ts';
import { isShared } from '../views/proposed-places.ts';
import { leastSpread } from './least-spread.ts';
import { placingBounds } from './placing-bounds.ts';
import type { Placement } from './placing-schema.ts';

/**
 * What is written of a proposed place that a person confirmed, with its spread, pixels. Where it was followed from the film before
 * (`areFollowed`) that is the spread there, which it shares, and what following it has added. No finer than a hand where the
 * picture did not tell it, as then the eye alone has. `mmPerPx`: null without a scale.
 */
export function confirmedPlace(
  proposal: Proposal,
  input: FootInput,
  mmPerPx: number | null,
  areFollowed: boolean,
): Placement {
  const { name, at, spread, distinct } = proposal;
  const { low, high } = placingBounds.spread;
  const least = Math.max(low, leastSpread(mmPerPx), distinct ? 0 : spreadInPixels(input, mmPerPx));
  const placed: Placement = { kind: 'landmark', name, at, spread: Math.min(high, Math.max(least, spread)) };
  return areFollowed && isShared(proposal) ? { ...placed, followed: true } : placed;
}
