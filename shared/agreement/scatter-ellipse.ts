import type { XY } from '../geometry/vector.ts';
import { mean } from './mean-squares.ts';

/** How placings of one landmark lie about their middle: the ellipse of one standard deviation, in the unit of the places. */
export interface ScatterEllipse {
  /** Standard deviation along the long axis, and square to it. */
  readonly long: number;
  readonly short: number;
  /** Of the long axis, degrees from X towards Y, above -90 to 90; null where the scatter is the same all round. */
  readonly angle: number | null;
  readonly placings: number;
  readonly films: number;
  /** Placings less films: what it rests on. */
  readonly df: number;
}

/** Of one difference nothing but a line can be made. */
const FEWEST = 2;

/**
 * The pooled covariance within films, and its principal axes.
 *
 * @param films of each film the places of one landmark; those with one place count for nothing
 * @returns null with fewer than two places beyond the first of each film
 */
export function scatterEllipse(films: readonly (readonly XY[])[]): ScatterEllipse | null {
  const repeated = films.filter((places) => places.length > 1);
  const placings = repeated.reduce((sum, places) => sum + places.length, 0);
  const df = placings - repeated.length;
  if (df < FEWEST) return null;
  let [xx, xy, yy] = [0, 0, 0];
  for (const places of repeated) {
    const [x, y] = [mean(places.map((place) => place.x)), mean(places.map((place) => place.y))];
    for (const place of places) {
      xx += (place.x - x) ** 2;
      xy += (place.x - x) * (place.y - y);
      yy += (place.y - y) ** 2;
    }
  }
  const middle = (xx + yy) / 2;
  const away = Math.hypot((xx - yy) / 2, xy);
  return {
    long: Math.sqrt((middle + away) / df),
    short: Math.sqrt(Math.max(0, middle - away) / df),
    angle: away > 1e-9 * middle ? upright((Math.atan2(2 * xy, xx - yy) * 90) / Math.PI) : null,
    placings,
    films: repeated.length,
    df,
  };
}

/** An axis has two ends: of -90 and 90 degrees the second is said. */
const upright = (degrees: number): number => (degrees <= -90 ? degrees + 180 : degrees);
