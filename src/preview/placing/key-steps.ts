import type { XY } from '../../../shared/views/film-sheet.ts';

/** What the arrow keys do, and how far. Pure. */

export interface ArrowPress {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

const ways: Readonly<Record<string, XY>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

export const isArrow = (key: string): boolean => Object.hasOwn(ways, key);

interface Steps {
  readonly plain: number;
  readonly shift: number;
  readonly alt: number;
}

/** Pixels of the picture that a landmark in the hand is moved by. */
export const nudgeSteps: Steps = { plain: 1, shift: 10, alt: 0.1 };
/** CSS pixels that the picture is moved by where nothing is to be placed. */
export const panSteps: Steps = { plain: 48, shift: 240, alt: 1 };
/**
 * CSS pixels that the cross is moved by. Eight of each make one of the next, so that no way takes more than four presses of a kind
 * along one edge of the picture.
 */
export const crossSteps: Steps = { plain: 8, shift: 64, alt: 1 };

/** How far one press goes; null where the key is no arrow. */
export function strideOf({ key, shiftKey, altKey }: ArrowPress, { plain, shift, alt }: Steps): XY | null {
  const way = isArrow(key) ? ways[key] : undefined;
  if (!way) return null;
  const far = altKey ? alt : shiftKey ? shift : plain;
  return { x: way.x * far, y: way.y * far };
}
