import type { Foot } from './foot.ts';
import { at, radians, type Point } from './plane.ts';

/** A shoe under a foot: how thick it is below the toe's contact, mm, and by how many degrees it raises the heel. */
export interface Shoe {
  readonly thickness: number;
  readonly wedge: number;
  /** Paste on the sole, from below the tip of the bone backwards. */
  readonly paste?: true;
}

export const bare: Shoe = { thickness: 0, wedge: 0 };

/** The point of the ground below x: of a bare foot it lies at 0, the plane that the hoof bears on. */
export function groundBelow(foot: Foot, { thickness, wedge }: Shoe): (x: number) => Point {
  const toe = foot.landmarks.get('toe.ground') ?? at(0, 0);
  const slope = Math.tan(radians(wedge));
  return (x) => at(x, -thickness - (toe.x - x) * slope);
}

/** Set back a little behind the toe, and rolled there. */
export function shoeOutline(foot: Foot, shoe: Shoe): Point[] {
  const toe = foot.landmarks.get('toe.ground') ?? at(0, 0);
  const heel = foot.landmarks.get('heel.ground') ?? at(0, 0);
  const ground = groundBelow(foot, shoe);
  return [
    at(toe.x - 7, 0),
    at(toe.x - 10, -0.55 * shoe.thickness),
    ground(toe.x - 20),
    ground(heel.x - 5),
    at(heel.x - 5, 0),
  ];
}
