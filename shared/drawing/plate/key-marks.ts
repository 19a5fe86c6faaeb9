import { isFinitePoint, type XY } from '../../geometry/vector.ts';
import type { GroupNode, SceneNode } from '../scene.ts';

/** A place of a lesson's key, on the picture. */
export interface KeyMark {
  /** Shown when the pointer rests on it. */
  readonly words: string;
  readonly state: 'agrees' | 'off' | 'missing';
  readonly at: XY;
  /** The student's; null where it is not placed. */
  readonly own: XY | null;
}

/**
 * Where the key has its places: a ring around each, and from the student's place a line to it where the two do not agree. What was not placed
 * has a ring of dashes. So the three are told apart by shape.
 */
export function keyMarks(marks: readonly KeyMark[], unit: number): GroupNode[] {
  return marks
    .filter(({ at, own }) => isFinitePoint(at) && (own === null || isFinitePoint(own)))
    .map(({ words, state, at, own }) => {
      const radius = (state === 'agrees' ? 1.3 : 1.7) * unit;
      const ring: SceneNode = {
        kind: 'circle',
        centre: at,
        radius,
        weight: 0.3 * unit,
        classes: ['key-ring'],
        halo: 'always',
        ...(state === 'missing' && { dash: [0.9 * unit, 0.7 * unit] }),
      };
      const way = state === 'off' && own ? wayTo(own, at, radius) : null;
      return {
        kind: 'group',
        classes: ['key-mark', `is-${state}`],
        title: words,
        children: way
          ? [{ kind: 'line', ...way, weight: 0.3 * unit, classes: ['key-way'], halo: 'always' }, ring]
          : [ring],
      };
    });
}

/** From the one place to the rim of the other's ring; null where it ends within. */
function wayTo(from: XY, to: XY, radius: number): { from: XY; to: XY } | null {
  const far = Math.hypot(to.x - from.x, to.y - from.y);
  if (far <= radius) return null;
  const part = (far - radius) / far;
  return { from, to: { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part } };
}
