import { PERIOD } from '../course/course.ts';
import { LEVEL } from '../course/theil-sen.ts';
import { between, distance, meet, minus, plus, type XY } from '../geometry/vector.ts';
import { usualGrowth } from '../reference/growth.ts';
import type { CourseRow } from './course-sheet.ts';

/** How fast the wall grows, mm a day, with its range, and by what. */
export interface GrowthRate {
  readonly slow: number;
  readonly middle: number;
  readonly fast: number;
  readonly by: 'films' | 'few films' | 'usual';
}

/**
 * The foot's own growth where its films tell it to be growth, else what is usual. Of films too few to be sure the range takes in
 * what is usual too.
 */
export function growthRate(grownOut: Pick<CourseRow, 'trend' | 'source'> | undefined): GrowthRate {
  const trend = grownOut?.source === 'film' ? grownOut.trend : null;
  if (!trend || !(trend.low > 0)) return { ...usualGrowth, by: 'usual' };
  const [slow, middle, fast] = [trend.low, trend.slope, trend.high].map((perMonth) => perMonth / PERIOD) as [
    number,
    number,
    number,
  ];
  if (trend.level >= LEVEL) return { slow, middle, fast, by: 'films' };
  return { slow: Math.min(slow, usualGrowth.slow), middle, fast: Math.max(fast, usualGrowth.fast), by: 'few films' };
}

/** A foot after some growth, where the bone stays as it is and the toe is kept to the ground. */
export interface GrownFoot {
  /** Every landmark, in the frame of the foot today, mm: of them the wall and what stands on the ground at the toe have moved. */
  readonly places: ReadonlyMap<string, XY>;
  /** How far the new wall has come down from the hairline, mm; never beyond the ground. */
  readonly newWall: number;
  /** From the hairline to the toe’s ground contact, mm, as it is measured on a film. */
  readonly toeLength: number;
  readonly reachesGround: boolean;
}

const needed = ['coronet.dorsal', 'wall.turn', 'toe.ground', 'p3.dorsal.upper', 'p3.dorsal.lower'] as const;

/** What has to be placed for it and is not. */
export function lacksForGrowth(places: ReadonlyMap<string, XY>): readonly string[] {
  return needed.filter((name) => !places.has(name));
}

/**
 * The wall slides down along the front of the pedal bone as it grows: what is new comes out at the hairline in that direction, what
 * is there moves on with it, and what passes the ground has worn off. Nothing else is foretold: no sole, no heel, no other bone.
 * Null where a landmark is lacking, the bone's front does not run down to the toe, or the wall no longer meets the ground.
 */
export function grownFoot(places: ReadonlyMap<string, XY>, growth: number): GrownFoot | null {
  const [hairline, turn, toe, upper, lower] = needed.map((name) => places.get(name));
  if (!hairline || !turn || !toe || !upper || !lower) return null;
  const face = minus(lower, upper);
  const length = Math.hypot(face.x, face.y);
  // A front that lies nearly level is placed wrongly.
  if (!(length > 0) || -face.y / length < leastSlope || turn.y >= hairline.y || turn.y <= toe.y) return null;
  const down = { x: face.x / length, y: face.y / length };
  const moved = (place: XY): XY => plus(place, down, growth);
  const straight = ['wall.top', 'wall.upper', 'wall.lower'].flatMap((name) => places.get(name) ?? []);
  const today = [hairline, ...[...straight, turn].sort((a, b) => b.y - a.y), toe].filter(
    (place, index) => index === 0 || place.y < hairline.y,
  );
  const wall = [hairline, ...today.map(moved)];
  const end = wall.findIndex((place, index) => index > 0 && place.y <= 0);
  const [above, below] = [wall[end - 1], wall[end]];
  const met = above && below ? meet(above, minus(below, above), { x: 0, y: 0 }, { x: 1, y: 0 }) : null;
  if (!above || !met) return null;
  const shown = [...wall.slice(0, end), met];
  // A toe that is rolled today is kept so: it never comes to stand further forward.
  const newToe = { x: Math.min(met.x, toe.x), y: 0 };
  const toeLength = distance(hairline, newToe);
  const newTurn = moved(turn);
  const newWall = distance(hairline, turn) + growth;
  const reachesGround = newTurn.y <= 0 || newWall >= toeLength;
  const changed = new Map(places);
  for (const name of ['wall.top', 'wall.upper', 'wall.lower']) {
    const place = places.get(name);
    const now = place && atHeight(shown, place.y);
    if (now) changed.set(name, now);
    else changed.delete(name);
  }
  // What is left of the old wall is none any more.
  if (reachesGround) changed.delete('wall.turn');
  else changed.set('wall.turn', newTurn);
  changed.set('toe.ground', newToe);
  changed.set('breakover', newToe);
  return { places: changed, newWall: Math.min(toeLength, newWall), toeLength, reachesGround };
}

const leastSlope = 0.3;

function atHeight(line: readonly XY[], y: number): XY | null {
  for (let index = 1; index < line.length; index++) {
    const [from, to] = [line[index - 1], line[index]];
    if (from && to && from.y >= y && to.y <= y && from.y > to.y)
      return between(from, to, (from.y - y) / (from.y - to.y));
  }
  return null;
}
