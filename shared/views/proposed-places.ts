import { lateralLandmark } from '../notation/landmarks.ts';
import type { Proposal } from '../proposals/proposal.ts';

/**
 * May be confirmed with others in one press: it was told by the picture, and lies on a bone, which keeps its shape. What lies on
 * the capsule a person looks at one by one.
 */
export function isSure({ name, distinct }: Proposal): boolean {
  const proposed = lateralLandmark(name)?.proposed;
  if (!distinct || !proposed) return false;
  return proposed.by === 'arc' || ((proposed.by === 'patch' || proposed.by === 'line') && proposed.on === 'pedal bone');
}

/** May be confirmed as it lies: a place that is only where to look may not, as no foot need be like the typical one. */
export const isFound = ({ by }: Proposal): boolean => by !== 'typical';

/**
 * Carries the error of the placing on the film before on. The corner in which two lines meet does so in part alone, and along the ground
 * hardly: it counts as a placing of its own, so that no change is called clear for what is not shared.
 */
export function isShared({ name, by }: Proposal): boolean {
  return !(by === 'edge' && lateralLandmark(name)?.proposed.by === 'patch');
}

/** The other end of the straight line that it lies on; null for what is a point by itself. */
export function partnerOf({ name }: Proposal): string | null {
  const proposed = lateralLandmark(name)?.proposed;
  return proposed?.by === 'line' ? proposed.partner : null;
}
