import { t } from '../language/words.ts';
import { circleThrough } from './circle.ts';
import type { XY } from './vector.ts';

export type JointCentre =
  | { readonly centre: XY; readonly radius: number }
  /** Why there is none yet, and what to do. */
  | { readonly says: string };

/** The centre of a joint from three points on the rounded end of the bone, in pixels; more than three are not looked at. */
export function jointCentre([a, b, c]: readonly XY[]): JointCentre {
  if (!a || !b || !c) {
    const more = a ? (b ? t('One more point') : t('Two more points')) : t('Three points');
    return { says: t('{0} on the edge of the rounded end of the bone, well apart.', more) };
  }
  const circle = circleThrough(a, b, c);
  const widest = Math.max(distance(a, b), distance(b, c), distance(c, a));
  // A rounded bone end of which so little is marked says next to nothing of its centre.
  if (!circle || circle.radius > 4 * widest)
    return { says: t('The three points lie nearly on a line. Drag one of them further round the bone.') };
  return { centre: { x: circle.x, y: circle.y }, radius: circle.radius };
}

const distance = (a: XY, b: XY): number => Math.hypot(a.x - b.x, a.y - b.y);
