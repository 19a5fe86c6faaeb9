import { isFinitePoint, type XY } from '../../geometry/vector.ts';
import type { GroupNode, SceneNode } from '../scene.ts';

/** A place of a lesson's key, on the picture. */
export interface KeyMark {
  readonly words: string;
  readonly state: 'agrees' | 'off' | 'missing';
  readonly at: XY;
  /** The student's; null where it is not placed. */
  readonly own: XY | null;
}

/**
 * Where the key has its places: a ring around each, and from the student's place a line to it where the two do not agree. What was not placed
 * has a ring of dashes. So the three are told apart by shape. The first few that do not agree have their names beside them; of the others
 * the name shows where the pointer rests.
 */
export function keyMarks(marks: readonly KeyMark[], unit: number, em: number): GroupNode[] {
  const sound = marks.filter(({ at, own }) => isFinitePoint(at) && (own === null || isFinitePoint(own)));
  const named = new Set(sound.filter(({ state }) => state !== 'agrees').slice(0, FEW));
  return sound.map((mark) => {
    const { words, state, at, own } = mark;
    const radius = (state === 'agrees' ? 1.5 : 2.2) * unit;
    const ring: SceneNode = {
      kind: 'circle',
      centre: at,
      radius,
      weight: (state === 'agrees' ? 0.3 : 0.5) * unit,
      classes: ['key-ring'],
      halo: 'always',
      ...(state === 'missing' && { dash: [0.9 * unit, 0.7 * unit] }),
    };
    const way = state === 'off' && own ? wayTo(own, at, radius) : null;
    return {
      kind: 'group',
      classes: ['key-mark', `is-${state}`],
      title: words,
      children: [
        ...(way ? [{ kind: 'line', ...way, weight: 0.5 * unit, classes: ['key-way'], halo: 'always' } as const] : []),
        ring,
        ...(named.has(mark) ? [nameBeside(words, at, own, radius, em)] : []),
      ],
    };
  });
}

/** As many names as are read without hiding the film. */
const FEW = 6;

/** On the side that the line does not come from. */
function nameBeside(words: string, at: XY, own: XY | null, radius: number, em: number): SceneNode {
  const isLeft = own !== null && own.x > at.x;
  return {
    kind: 'text',
    at: { x: at.x + (isLeft ? -1 : 1) * (radius + 0.4 * em), y: at.y + 0.3 * em },
    size: em * 0.8,
    anchor: isLeft ? 'end' : 'start',
    runs: [{ text: words }],
    classes: ['key-words'],
  };
}

/** From the one place to the rim of the other's ring; null where it ends within. */
function wayTo(from: XY, to: XY, radius: number): { from: XY; to: XY } | null {
  const far = Math.hypot(to.x - from.x, to.y - from.y);
  if (far <= radius) return null;
  const part = (far - radius) / far;
  return { from, to: { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part } };
}
