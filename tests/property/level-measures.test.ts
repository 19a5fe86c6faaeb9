import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { Dice } from './dice.ts';
import { scaleOf, type Film, type Landmark, type Point } from './oracle/lateral.ts';
import { randomFoot, toNotation } from './random-foot.ts';

/**
 * What the level measures are for: they do not change when the foot merely stands otherwise on its ground, nor when the bone
 * only turns about its extensor process. No formula is asked: each film is held against the same film with places turned.
 */

const FEET = 120;
const FIRST_SEED = 9000;
const LEVELS = ['founder-distance.level', 'coronet-extensor.level'] as const;
const STANDING = ['founder-distance', 'coronet-extensor'] as const;

/** mm: places are written to a hundredth of a pixel at least, pixels are up to 0.3 mm, and each value rests on four places. */
const TOLERANCE = 0.02;

const isBone = ({ name }: Landmark): boolean => /^(?:p3|navicular|coffin)\./.test(name);

function turnedAbout(film: Film, about: Point, degrees: number, moves: (landmark: Landmark) => boolean): Film {
  const [sine, cosine] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  return {
    ...film,
    landmarks: film.landmarks.map((landmark) => {
      if (!moves(landmark)) return landmark;
      const [x, y] = [landmark.x - about.x, landmark.y - about.y];
      return { ...landmark, x: about.x + x * cosine - y * sine, y: about.y + x * sine + y * cosine };
    }),
  };
}

/** Places to a millionth of a pixel, on a picture that has room for every turn. */
function roomy(film: Film): Film {
  const shifted = ({ x, y }: Point): Point => ({ x: Number((x + 6000).toFixed(6)), y: Number((y + 6000).toFixed(6)) });
  return {
    ...film,
    landmarks: film.landmarks.map((landmark) => ({ ...landmark, ...shifted(landmark) })),
    ...(film.ground && { ground: { a: shifted(film.ground.a), b: shifted(film.ground.b) } }),
  };
}

function measuresOf(film: Film, seed: number): ReadonlyMap<string, { readonly value: number }> {
  const text = toNotation({ seed, foot: 'LF', film: roomy(film) });
  return inspect(text).study.films[0]?.readings[0]?.taking.values ?? new Map();
}

interface Compared {
  readonly level: number[];
  readonly standing: number[];
}

/** How far each measure of each random foot is from what it was, mm. */
function compared(change: (film: Film, dice: Dice) => Film): Compared {
  const level: number[] = [];
  const standing: number[] = [];
  for (let seed = FIRST_SEED; seed < FIRST_SEED + FEET; seed++) {
    const { film } = randomFoot(seed, { complete: true });
    const [before, after] = [measuresOf(film, seed), measuresOf(change(film, new Dice(seed ^ 0x7e7)), seed)];
    const differ = (name: string): number => {
      const [was, now] = [before.get(name), after.get(name)];
      if (!was || !now) throw new Error(`foot ${seed} has no ${name}`);
      return Math.abs(now.value - was.value);
    };
    level.push(...LEVELS.map(differ));
    standing.push(...STANDING.map(differ));
  }
  return { level, standing };
}

const worst = (values: readonly number[]): number => Math.max(...values);

describe('the level measures of random feet', () => {
  it('have enough to compare: films with a scale and a ground line of their own', () => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + FEET; seed++) {
      const { film } = randomFoot(seed, { complete: true });
      expect(film.ground, `foot ${seed}`).toBeDefined();
      expect(scaleOf(film), `foot ${seed}`).toBeGreaterThan(0);
    }
  });

  it('do not change when the whole foot is turned about any point while the ground stays', () => {
    const { level, standing } = compared((film, dice) => {
      // Any point in or about the foot: from further away it would be turned right under the ground, where no foot stands.
      const [xs, ys] = [film.landmarks.map(({ x }) => x), film.landmarks.map(({ y }) => y)];
      const about = {
        x: dice.between(Math.min(...xs), Math.max(...xs)),
        y: dice.between(Math.min(...ys), Math.max(...ys)),
      };
      return turnedAbout(film, about, dice.pick([-1, 1]) * dice.between(2, 10), () => true);
    });
    expect(worst(level)).toBeLessThan(TOLERANCE);
    // What they are there for: the standing measures do change.
    expect(worst(standing)).toBeGreaterThan(2);
  });

  it('do not change when the bone is turned about its extensor process', () => {
    const { level } = compared((film, dice) => {
      const process = film.landmarks.find(({ name }) => name === 'p3.extensor') as Landmark;
      return turnedAbout(film, process, dice.pick([-1, 1]) * dice.between(2, 12), isBone);
    });
    expect(worst(level)).toBeLessThan(TOLERANCE);
  });

  it('grow by as much as the bone comes to lie lower, square to the level that the hairline gives', () => {
    // The bone shifted along a straight line: both conventions change alike, and by no more than the way it went.
    const moved = 4;
    for (let seed = FIRST_SEED; seed < FIRST_SEED + 40; seed++) {
      const { film } = randomFoot(seed, { complete: true });
      const px = moved / (scaleOf(film) ?? 1);
      const lower: Film = {
        ...film,
        landmarks: film.landmarks.map((one) => (isBone(one) ? { ...one, y: one.y + px } : one)),
      };
      const [before, after] = [measuresOf(film, seed), measuresOf(lower, seed)];
      const [wall = NaN, hairline = NaN] = LEVELS.map(
        (name) => (after.get(name)?.value ?? NaN) - (before.get(name)?.value ?? NaN),
      );
      expect(wall, `foot ${seed}`).toBeCloseTo(hairline, 2);
      expect(wall, `foot ${seed}`).toBeLessThanOrEqual(moved + TOLERANCE);
      expect(wall, `foot ${seed}`).toBeGreaterThan(moved / 2);
    }
  });
});
