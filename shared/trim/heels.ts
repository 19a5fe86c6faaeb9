import type { CutSize, Footing } from './stand.ts';

export type HeelSide = 'inside' | 'outside';
export const sides: readonly HeelSide[] = ['inside', 'outside'];

/** What one of the two heels loses with a cut. */
export interface HeelTaken {
  readonly side: HeelSide;
  /** mm: what both heels lose, and what comes off the heel's own side. */
  readonly taken: number;
  /** mm of that from the side alone, the trims since the film with it. */
  readonly fromSide: number;
}

/**
 * What each heel loses that a cut touches. All that comes off a side counts at the heel of that side, whatever the heels lie further in
 * than the wall is wide: rather too much than too little. What came off a side since the film counts too, while `heelDown` of those
 * trims is in the foot as it stands.
 */
export function takenAtHeels({ earlier }: Pick<Footing, 'earlier'>, size: CutSize): HeelTaken[] {
  return sides
    .filter((side) => size.heelDown > 0 || ofSide(size, side) > 0)
    .map((side) => {
      // What both sides had lost by then is gone from the foot as it stands.
      const fromSide = offSide([...earlier, size], side) - loweredBy(earlier);
      return { side, taken: size.heelDown + fromSide, fromSide };
    });
}

/** The heel that loses most, of two alike the inner one; null where a cut touches no heel. */
export function mostAtHeel(foot: Pick<Footing, 'earlier'>, size: CutSize): HeelTaken | null {
  const [inner, outer] = takenAtHeels(foot, size);
  return outer && inner && outer.taken > inner.taken ? outer : (inner ?? null);
}

/** mm that some cuts together take off a side. */
export const offSide = (cuts: readonly CutSize[], side: HeelSide): number =>
  cuts.reduce((sum, one) => sum + ofSide(one, side), 0);

/** mm that cuts together take off a side beyond what both sides lost, which is gone from the foot as it stands after them. */
export const offSideAlone = (cuts: readonly CutSize[], side: HeelSide): number => offSide(cuts, side) - loweredBy(cuts);

/** mm that cuts together lower the whole foot by, from both sides. */
const loweredBy = (cuts: readonly CutSize[]): number =>
  Math.min(...sides.map((side) => cuts.reduce((sum, one) => sum + ofSide(one, side), 0)));

/** mm off a side in one cut. */
export const ofSide = ({ insideDown = 0, outsideDown = 0 }: CutSize, side: HeelSide): number =>
  side === 'inside' ? insideDown : outsideDown;
