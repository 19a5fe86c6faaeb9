import { intoFrame, ontoImage } from '../geometry/foot-axes.ts';
import { between, cross, direction, meet, type XY } from '../geometry/vector.ts';
import { findLine, type LineFound } from '../picture/seek/profile-line.ts';
import { byGround, type FilmPair } from './film-pair.ts';

/** Where two lines of the picture meet, one of them the ground. */
export interface Corner {
  readonly at: XY;
  /** One standard deviation where it is told worst, pixels of the new film. */
  readonly worst: number;
}

/** Which share of the wall above the contact is looked at: its lower end is trimmed, its upper one hidden in the hairline. */
const WALL = [0.95, 0.12] as const;
/** How far from where the ground alone puts it the wall is looked for, mm: it stood further forward or back. */
const WALL_REACH = 7;
/** What of the ground behind the heel is looked at, mm from the contact, and how far off: it was placed by hand. */
const GROUND = [-20, -3] as const;
const GROUND_REACH = 2.5;
/** What lies on either side and tells a line from another, mm. */
const WALL_SIDE = 2.5;
const GROUND_SIDE = 2;
/** What both lines have to be (from the bench). */
const SHARE = 0.7;
const ALIKE = 0.85;
const WORST = 0.2;
/** Lines that meet at less than this do not tell where, as a sine. */
const STEEP = 0.4;

/**
 * Where the wall from `upper` down meets the ground, by the greys that went across both on the film before. Null where either is not
 * told, as on a foot that stands on nothing, or where they meet at too small an angle. Nothing here asks for a shoe: with one on, it
 * is the lines through the old contact that are sought, whatever they are.
 */
export function groundCorner(pair: FilmPair, upper: XY, contact: XY): Corner | null {
  const { before, now, mirrored } = pair;
  const size = before.mmPerPx / now.mmPerPx;
  const px = 1 / before.mmPerPx;
  const found = (a: XY, b: XY, side: number, reach: number): LineFound | null => {
    const line = findLine(before.picture, now.picture, {
      before: [a, b],
      expected: [byGround(pair, a), byGround(pair, b)],
      side: side * px,
      reach: reach * px,
      size,
      mirrored,
      places: 24,
    });
    const isTold = line && line.share >= SHARE && line.correlation >= ALIKE && worstOf(line) * now.mmPerPx <= WORST;
    return isTold ? line : null;
  };
  const wall = found(between(contact, upper, WALL[0]), between(contact, upper, WALL[1]), WALL_SIDE, WALL_REACH);
  if (!wall) return null;
  // Beside the contact and as high as it: what was placed a little off the ground is so again.
  const { x, y } = intoFrame(before.axes, contact);
  const beside = (mm: number): XY => ontoImage(before.axes, { x: x + mm * px, y });
  const ground = found(beside(GROUND[0]), beside(GROUND[1]), GROUND_SIDE, GROUND_REACH);
  const [down, along] = [direction(...wall.ends), ground && direction(...ground.ends)];
  if (!ground || !down || !along) return null;
  const sine = Math.abs(cross(down, along));
  const at = meet(wall.ends[0], down, ground.ends[0], along);
  if (!at || sine < STEEP) return null;
  return { at, worst: Math.hypot(worstOf(wall), worstOf(ground)) / sine };
}

const worstOf = ({ sds }: LineFound): number => Math.max(...sds);
