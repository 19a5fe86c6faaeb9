import { groundRules } from '../geometry/foot-axes.ts';
import type { XY } from '../geometry/vector.ts';

/** To which edge of its picture the toe of a lateral film points. */
export type ToeSide = 'left' | 'right';

/** Told by the first pair of places that is there, from the heel to the toe; null where none is. */
export function toeSide(placed: Readonly<Record<string, XY>>): ToeSide | null {
  const { senses, roughSenses } = groundRules.lateral;
  for (const [from, to] of [...senses, ...roughSenses]) {
    const way = (placed[to]?.x ?? Number.NaN) - (placed[from]?.x ?? Number.NaN);
    if (way > 0) return 'right';
    if (way < 0) return 'left';
  }
  return null;
}
