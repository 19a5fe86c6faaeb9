import { Dice, round } from './dice.ts';
import type { Film, Point, Segment } from './oracle/lateral.ts';
import type { RandomFoot } from './random-foot.ts';

/** What a foot is made to wear: mm square to its bearing plane below the toe end of the line, and degrees that the heel is raised. */
export interface RandomShoe {
  thickness: number;
  wedge: number;
}

export function randomShoe(dice: Dice): RandomShoe {
  const wedge = round(dice.between(-6, 9), 1);
  // One that raises the toe is thinner at the heel, some 200 mm away: something is left of it there too.
  const least = 3 + Math.max(0, -wedge) * 4;
  return { thickness: round(dice.between(least, 40), 1), wedge };
}

/**
 * The very same film with a shoe under the foot: what was the ground is the bearing plane, and the ground lies lower and is turned
 * about its end at the toe.
 */
export function wearing(film: Film, mmPerPx: number, { thickness, wedge }: RandomShoe): Film {
  const { ground } = film;
  if (!ground) throw new Error('a foot that stands on no line can wear nothing');
  const [heel, toe] = toeLast(film, ground);
  const length = Math.hypot(toe.x - heel.x, toe.y - heel.y);
  const way = { x: (toe.x - heel.x) / length, y: (toe.y - heel.y) / length };
  const down = downFrom(film, heel, way);
  const px = thickness / mmPerPx;
  const below = { x: toe.x + down.x * px, y: toe.y + down.y * px };
  // From the toe backwards the ground falls away from the bearing plane by the wedge.
  const [run, fall] = [Math.cos((wedge * Math.PI) / 180) * length, Math.sin((wedge * Math.PI) / 180) * length];
  const back = { x: below.x - way.x * run + down.x * fall, y: below.y - way.y * run + down.y * fall };
  return { ...film, bearing: ground, ground: { a: back, b: below }, shod: true };
}

function place(film: Film, name: string): Point {
  const found = film.landmarks.find((one) => one.name === name);
  if (!found) throw new Error(`${name} is not placed`);
  return found;
}

function toeLast(film: Film, { a, b }: Segment): [Point, Point] {
  const [tip, wing] = [place(film, 'p3.tip'), place(film, 'p3.wing')];
  return (b.x - a.x) * (tip.x - wing.x) + (b.y - a.y) * (tip.y - wing.y) > 0 ? [a, b] : [b, a];
}

/** Square to the line, away from the bone. */
function downFrom(film: Film, on: Point, way: Point): Point {
  const tip = place(film, 'p3.tip');
  const side = (tip.x - on.x) * way.y - (tip.y - on.y) * way.x;
  return side > 0 ? { x: -way.y, y: way.x } : { x: way.y, y: -way.x };
}

/** A random foot with a shoe, on whose film a line may be missing, and whose case may say nothing of the shoe. */
export function shodFoot(foot: RandomFoot): RandomFoot {
  const dice = new Dice(foot.seed ^ 0x540e);
  const { film } = foot;
  const canWear = film.ground && ['p3.tip', 'p3.wing'].every((name) => film.landmarks.some((one) => one.name === name));
  if (!canWear) return { ...foot, film: { ...film, shod: true } };
  const mmPerPx = film.scale?.form === 'stated' ? film.scale.mmPerPx : 0.15;
  const { ground, bearing, ...rest } = rounded(wearing(film, mmPerPx, randomShoe(dice)));
  return {
    ...foot,
    film: {
      ...rest,
      shod: dice.chance(0.8),
      ...(ground && !dice.chance(0.15) && { ground }),
      ...(bearing && !dice.chance(0.15) && { bearing }),
    },
  };
}

function rounded(film: Film): Film {
  const end = ({ x, y }: Point): Point => ({ x: round(x, 2), y: round(y, 2) });
  const line = ({ a, b }: Segment): Segment => ({ a: end(a), b: end(b) });
  return {
    ...film,
    ...(film.ground && { ground: line(film.ground) }),
    ...(film.bearing && { bearing: line(film.bearing) }),
  };
}
