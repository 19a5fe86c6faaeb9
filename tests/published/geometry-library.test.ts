import { describe, expect, it } from 'vitest';
import { randomFoot, toNotation } from '../property/random-foot.ts';
import { lateralByLibrary } from './lateral-by-library.ts';
import { readFilm } from './readings.ts';

const FEET = 150;
const feet = Array.from({ length: FEET }, (_, index) => randomFoot(30_000 + index, { complete: true }));

/** Every lateral measure but none of the predictions: 11 angles, 8 depths, 11 of the wall and 5 ratios. */
describe('lateral measures against flatten-js', () => {
  const measured = feet.map((foot) => ({
    seed: foot.seed,
    product: readFilm(toNotation(foot)),
    library: lateralByLibrary(foot.film),
  }));

  it('are the same measures on every foot', () => {
    for (const { seed, product, library } of measured)
      expect([...product.names].sort(), `foot ${seed}`).toEqual([...library.keys()].sort());
    expect(measured[0]?.library.size).toBe(40);
  });

  it.each([...lateralByLibrary((feet[0] as (typeof feet)[number]).film).keys()])('%s', (measure) => {
    let varied = 0;
    for (const { seed, product, library } of measured) {
      const reference = library.get(measure) ?? NaN;
      expect(
        Math.abs(product.value(measure) - reference),
        `foot ${seed}: ${product.value(measure)}, not ${reference}`,
      ).toBeLessThan(1e-7);
      if (Math.abs(reference) > 1e-3) varied += 1;
    }
    expect(varied).toBeGreaterThan(FEET / 2);
  });
});
