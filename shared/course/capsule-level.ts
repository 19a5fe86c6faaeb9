import type { FilmFrame, Frame } from '../geometry/frame.ts';
import { belowWhenTurned, vector, type Point } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import type { XY } from '../geometry/vector.ts';
import type { LandmarkName } from '../notation/landmarks.ts';

/**
 * How far the extensor process lies below the top of the capsule on one film, with what the stance does taken out. Two
 * conventions, the firm wall and the hairline; three ways to take out the stance, the best first.
 */

export type Convention = 'wall' | 'hairline';
export type Ruler = 'hairline' | 'wall' | 'ground';

/** The best first: the hairline is the steady part of the capsule, the wall may be flared, the ground turns with the trim. */
export const rulers: readonly Ruler[] = ['hairline', 'wall', 'ground'];

const tops: Readonly<Record<Convention, LandmarkName>> = { wall: 'wall.top', hairline: 'coronet.dorsal' };

/** Both ends of what is set to a fixed direction, and that direction in degrees from +X; the ground is there already. */
const directions = {
  hairline: { from: 'coronet.heel', to: 'coronet.dorsal', degrees: 20 },
  // Leaning back at 50 degrees to the ground.
  wall: { from: 'wall.lower', to: 'wall.upper', degrees: 130 },
} as const;

/** mm, and mm squared. */
export interface CapsuleLevel {
  readonly value: number;
  /** From the placings. With both conventions the extensor process counts once. */
  readonly variance: number;
}

/** The mean of the conventions that are asked for; null where the frame lacks one of them, or the ruler, or a scale. */
export function capsuleLevel(frame: Frame, ruler: Ruler, conventions: readonly Convention[]): CapsuleLevel | null {
  return fromLevel(frame, ruler, conventions, (level) => {
    const sd = frame.graph.deviation(level);
    return Number.isFinite(level.value) && Number.isFinite(sd) ? { value: level.value, variance: sd * sd } : null;
  });
}

/** By how much it changes for each mm that a placing is moved along X and Y of the foot. */
export function levelByPlacing(
  frame: FilmFrame,
  ruler: Ruler,
  conventions: readonly Convention[],
): ReadonlyMap<LandmarkName, XY> | null {
  return fromLevel(frame, ruler, conventions, (level) => frame.byPlacing(level));
}

function fromLevel<T>(
  frame: Frame,
  ruler: Ruler,
  conventions: readonly Convention[],
  take: (level: Real) => T | null,
): T | null {
  const low = frame.at('p3.extensor');
  if (!frame.scale || !low) return null;
  return frame.graph.scratch(() => {
    const depths: Real[] = [];
    for (const convention of conventions) {
      const high = frame.at(tops[convention]);
      const depth = high && below(frame, ruler, high, low);
      if (!depth) return null;
      depths.push(depth);
    }
    const [first, second] = depths;
    const mean = first && second ? first.plus(second).times(0.5) : first;
    return mean ? take(mean) : null;
  });
}

function below(frame: Frame, ruler: Ruler, high: Point, low: Point): Real | null {
  // Under a shoe nobody knows how the hoof stands: its wedge would pass for sinking.
  if (ruler === 'ground') return frame.isOnBearing ? high.y.minus(low.y) : null;
  const { from, to, degrees: direction } = directions[ruler];
  const [start, end] = [frame.at(from), frame.at(to)];
  return start && end ? belowWhenTurned(high, low, vector(start, end), direction) : null;
}
