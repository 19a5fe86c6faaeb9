import { at, radians, type Point } from './plane.ts';

/** How the foot lies on the film. */
export interface View {
  width: number;
  height: number;
  mmPerPx: number;
  toe: 'left' | 'right';
  /** Turn of the whole scene on the film, degrees, clockwise on the screen. */
  tilt: number;
  /** Where the point of the ground below the tip of P3 falls, px. */
  origin: Point;
}

/** From the foot frame (mm, y up) to image pixels (y down). */
export function toImage(v: View): (p: Point) => Point {
  const c = Math.cos(radians(v.tilt)) / v.mmPerPx;
  const s = Math.sin(radians(v.tilt)) / v.mmPerPx;
  const side = v.toe === 'right' ? 1 : -1;
  return (p) => at(v.origin.x + side * p.x * c + p.y * s, v.origin.y + side * p.x * s - p.y * c);
}
