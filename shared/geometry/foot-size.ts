import { spokenRows } from '../language/rows.ts';
import { outside } from '../notation/in-range.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';
import type { Range } from '../notation/signature.ts';
import { placeOf, type FootInput } from './foot-input.ts';

/**
 * How large the foot of an equid can be at all. A scale by which it is larger or smaller is wrong, whatever it was taken from,
 * and counts as none. The ranges are judgements of ours, wide on purpose: from the newborn of a miniature breed to a heavy
 * draught horse, overgrown hooves included.
 */
interface FootLength {
  readonly from: LandmarkName;
  readonly to: LandmarkName;
  readonly words: string;
  readonly possible: Range;
  /** Where it lies in most grown animals, ponies and donkeys included: what a slip of writing was meant to come to. */
  readonly likely: Range;
}

const mm = (low: number, high: number): Range => ({ low, high, unit: 'mm' });

/** The first one whose two ends are placed speaks: bone before hoof, as bone neither grows nor is trimmed. */
const lengths: Readonly<Record<View, readonly FootLength[]>> = {
  lateral: [
    {
      from: 'p3.tip',
      to: 'p3.wing',
      words: 'the length of the pedal bone',
      possible: mm(20, 130),
      likely: mm(45, 95),
    },
    {
      from: 'heel.ground',
      to: 'toe.ground',
      words: 'the bearing length',
      possible: mm(30, 300),
      likely: mm(75, 190),
    },
  ],
  front: [
    {
      from: 'p3.medial',
      to: 'p3.lateral',
      words: 'the width of the pedal bone',
      possible: mm(20, 160),
      likely: mm(45, 110),
    },
    {
      from: 'wall.medial',
      to: 'wall.lateral',
      words: 'the width of the foot on the ground',
      possible: mm(25, 300),
      likely: mm(65, 180),
    },
  ],
  solar: (['heel.medial', 'heel.lateral'] as const).map((to) => ({
    from: 'toe',
    to,
    words: 'the length of the sole',
    possible: mm(25, 300),
    likely: mm(65, 190),
  })),
};

/** Where none of those is placed: how far landmarks lie apart at most, up to the fetlock. */
const widest = { words: 'the distance between the outermost landmarks', possible: mm(5, 600), likely: mm(60, 300) };

spokenRows([...Object.values(lengths).flat(), widest], 'words');

/** Two landmarks may lie close to each other in any foot. */
const widestOfFew = spokenRows([{ ...widest, possible: mm(0, 600) }], 'words')[0];
const fewest = 3;

/** How large a foot is by its scale. */
export interface FootSize {
  /** `the length of the pedal bone` */
  readonly words: string;
  readonly mm: number;
  readonly possible: Range;
  readonly likely: Range;
  /** The landmarks it is taken between; none where it is those that lie farthest apart. */
  readonly names: readonly LandmarkName[];
}

/** What tells the size of a foot at a scale, mm/px, a magnification taken off; null where fewer than two places are known. */
export function footSize({ view, landmarks }: Pick<FootInput, 'view' | 'landmarks'>, mmPerPx: number): FootSize | null {
  for (const { from, to, ...length } of lengths[view]) {
    const [start, end] = [placeOf(from, landmarks), placeOf(to, landmarks)];
    const px = start && end ? Math.hypot(end.x - start.x, end.y - start.y) : 0;
    // Two landmarks at one place are a slip of placing, and say nothing of the scale.
    if (px > 0) return { ...length, names: [from, to], mm: px * mmPerPx };
  }
  const px = farthestApart(landmarks);
  return px > 0 ? { ...(landmarks.length < fewest ? widestOfFew : widest), names: [], mm: px * mmPerPx } : null;
}

/** The same where no foot has such a size; null where nothing is odd. */
export function oddSize(input: Pick<FootInput, 'view' | 'landmarks'>, mmPerPx: number): FootSize | null {
  const size = footSize(input, mmPerPx);
  return size && outside(size.mm, size.possible) !== null ? size : null;
}

function farthestApart(landmarks: FootInput['landmarks']): number {
  let most = 0;
  for (const one of landmarks)
    for (const other of landmarks) most = Math.max(most, Math.hypot(other.x - one.x, other.y - one.y));
  return most;
}
