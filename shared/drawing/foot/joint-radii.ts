import { distance } from '../../geometry/vector.ts';
import { JOINT_GAP } from './bone-ink.ts';
import { all, some, type DrawingContext } from '../drawing-context.ts';

/** The radius of the rounded lower end of P2: from the joint surface of P3 where it is placed, else by proportion. */
export function coffinRadius(context: DrawingContext): number {
  const centre = context.at('coffin.centre');
  const u = context.unit;
  const reach = centre
    ? some(context, 'p3.extensor', 'p3.navicular').map((p) => distance(p, centre) - JOINT_GAP * u)
    : [];
  const pastern = context.at('pastern.centre');
  const usual = centre && pastern ? distance(centre, pastern) * 0.37 : 16.5 * u;
  const nearest = reach.length > 0 ? Math.min(...reach) : usual;
  return Math.min(Math.max(nearest, usual * 0.72), usual * 1.25);
}

export function pasternRadius(context: DrawingContext): number {
  const centres = all(context, 'coffin.centre', 'pastern.centre');
  if (centres) return distance(centres[0], centres[1]) * 0.3;
  const long = all(context, 'pastern.centre', 'fetlock.centre');
  return long ? distance(long[0], long[1]) * 0.173 : 13.5 * context.unit;
}
