import { randomLcg, randomNormal } from 'd3-random';
import { std } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Film, Point, Segment } from '../property/oracle/lateral.ts';
import { randomFoot, toNotation } from '../property/random-foot.ts';
import { lateralByLibrary, mmPerPixel } from './lateral-by-library.ts';
import { readFilm } from './readings.ts';

/**
 * The reported spread against chance itself: every point of one foot is placed anew many times with the normal sampler of
 * d3-random, measured with flatten-js, and the scatter taken with mathjs. Of 20,000 draws it is known to 0.5 %; what a straight
 * line in place of a curve leaves out is allowed as much again and more.
 */
const DRAWS = 20_000;
const ALLOWED = 0.025;

const foot = randomFoot(60_000, { complete: true, spreadAtMostMm: 1 });
const { film } = foot;
const { ground, scale, magnify = 1 } = film;
if (!ground || scale?.form !== 'marker') throw new Error('this foot shall have a ground line and a marker');
/** Half a millimetre, the setting's usual, for all that states no spread of its own. */
const usual = (0.5 * magnify) / mmPerPixel(scale);

function drawn(normal: () => number): Film {
  const placed = <T extends Point>(point: T): T => {
    const { spread = usual } = point;
    return { ...point, x: point.x + spread * normal(), y: point.y + spread * normal() };
  };
  const segment = ({ a, b }: Segment): Segment => ({ a: placed(a), b: placed(b) });
  return {
    ...film,
    landmarks: film.landmarks.map(placed),
    ...(ground && { ground: segment(ground) }),
    ...(scale?.form === 'marker' && { scale: { ...scale, ends: segment(scale.ends) } }),
  };
}

describe('20,000 placings by d3-random', () => {
  const product = readFilm(toNotation(foot));
  const normal = randomNormal.source(randomLcg(0.4242))(0, 1);
  const scatter = new Map<string, number[]>();
  for (let i = 0; i < DRAWS; i++)
    for (const [measure, value] of lateralByLibrary(drawn(normal))) {
      const values = scatter.get(measure) ?? [];
      scatter.set(measure, values);
      values.push(value);
    }

  it.each([...scatter])('%s', (measure, values) => {
    const sd = Number(std(values));
    expect(Math.abs(product.sd(measure) / sd - 1), `${product.sd(measure)}, drawn ${sd}`).toBeLessThan(ALLOWED);
  });
});
