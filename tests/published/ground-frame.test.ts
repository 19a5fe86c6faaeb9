import { diag, rotationMatrix, unit, type Matrix } from 'mathjs';
import { randomLcg, randomUniform } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { randomFoot, toNotation } from '../property/random-foot.ts';
import { lateralByLibrary } from './lateral-by-library.ts';
import { readFilm } from './readings.ts';
import { throughMatrix } from './turned-films.ts';

/**
 * However the plate lay under the foot, the measures are those of the foot: pictures turned by the rotation matrices of mathjs
 * against the film as it was, measured with flatten-js.
 */
const draw = randomUniform.source(randomLcg(0.77));
const degrees = draw(-180, 180);
const shift = draw(-3000, 3000);
const quarterTurns = [0, 90, 180, -90];

const feet = Array.from({ length: 60 }, (_, index) => randomFoot(40_000 + index, { complete: true }));

function compare(turnedBy: (index: number) => Matrix): void {
  for (const [index, foot] of feet.entries()) {
    const plain = readFilm(toNotation(foot));
    const film = throughMatrix(foot.film, turnedBy(index), { x: shift(), y: shift() });
    const turned = readFilm(toNotation({ ...foot, film }));
    for (const [measure, reference] of lateralByLibrary(foot.film)) {
      const where = `${measure} of foot ${foot.seed}`;
      expect(Math.abs(turned.value(measure) - reference), where).toBeLessThan(1e-7);
      expect(Math.abs(turned.sd(measure) / plain.sd(measure) - 1), `sd of ${where}`).toBeLessThan(1e-7);
    }
  }
}

describe('the ground frame', () => {
  it('does not change when the picture is turned by any angle', () => {
    compare(() => rotationMatrix(unit(degrees(), 'deg')) as Matrix);
  });

  it('nor by quarter turns, where the ground stands upright or on its head', () => {
    compare((index) => rotationMatrix(unit(quarterTurns[index % 4] ?? 0, 'deg')) as Matrix);
  });

  it('nor when it is mirrored, as a film of the other side of the plate', () => {
    compare(() => diag([-1, 1], 'dense') as Matrix);
  });
});
