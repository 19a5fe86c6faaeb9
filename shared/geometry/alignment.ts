import type { XY } from './vector.ts';

/** How a digit lies in a picture: the coffin joint, the axis of P2 up from it, and a place before that axis. */
export interface DigitAxis {
  readonly coffin: XY;
  readonly pastern: XY;
  /** Any place that lies to the toe side of the axis of P2: it tells which way the foot looks. */
  readonly dorsal: XY;
  /** mm for one unit of these places. */
  readonly scale: number;
}

/**
 * Carries places of one foot onto another's picture at the same size in millimetres, so that the coffin joints and the
 * axes of P2 coincide; a foot that looks the other way is mirrored. Null where an axis has no length or a scale is none.
 */
export function alignment(from: DigitAxis, onto: DigitAxis): ((place: XY) => XY) | null {
  const here = axes(from);
  const there = axes(onto);
  if (!here || !there) return null;
  const size = from.scale / onto.scale;
  return (place) => {
    const x = place.x - from.coffin.x;
    const y = place.y - from.coffin.y;
    const up = (x * here.up.x + y * here.up.y) * size;
    const front = (x * here.front.x + y * here.front.y) * size;
    return {
      x: onto.coffin.x + there.up.x * up + there.front.x * front,
      y: onto.coffin.y + there.up.y * up + there.front.y * front,
    };
  };
}

interface Axes {
  /** Along P2 away from the coffin joint, of length 1. */
  readonly up: XY;
  /** Square to it, towards the toe, of length 1. */
  readonly front: XY;
}

function axes({ coffin, pastern, dorsal, scale }: DigitAxis): Axes | null {
  const length = Math.hypot(pastern.x - coffin.x, pastern.y - coffin.y);
  if (!(length > 0) || !(scale > 0)) return null;
  const up = { x: (pastern.x - coffin.x) / length, y: (pastern.y - coffin.y) / length };
  const side = (dorsal.x - coffin.x) * -up.y + (dorsal.y - coffin.y) * up.x;
  if (side === 0) return null;
  return { up, front: side > 0 ? { x: -up.y, y: up.x } : { x: up.y, y: -up.x } };
}
