/**
 * What lowering one side leaves, by the built command line against the oracle, on made-up front films, and by hand.
 */

import { expect, it } from 'vitest';
import { Comparison } from './comparison.ts';
import { Dice, round } from './dice.ts';
import { frontTrimmed, frontUnitOf, type SideCut } from './oracle/front.ts';
import { spreadsOf } from './oracle/spread.ts';
import { measured } from './product.ts';
import { randomView, toNotation } from './random-views.ts';

const FILMS = 150;
const FIRST_SEED = 8100;

function randomSides(seed: number): SideCut {
  const dice = new Dice(seed ^ 0x51de);
  const amount = (): number => round(dice.between(0.5, 8), 1);
  const which = dice.pick(['inside', 'outside', 'both'] as const);
  return { insideDown: which === 'outside' ? 0 : amount(), outsideDown: which === 'inside' ? 0 : amount() };
}

function written(foot: string, { insideDown, outsideDown }: SideCut): string[] {
  const line = (side: string, mm: number): string[] => (mm > 0 ? [`  ${side} down ${mm} mm`] : []);
  return [`trim ${foot}`, ...line('inside', insideDown), ...line('outside', outsideDown)];
}

it('is predicted on the front film as the definition says, with its standard deviations', async () => {
  const films = Array.from({ length: FILMS }, (_, index) => randomView('front', FIRST_SEED + index)).filter(
    ({ kind }) => kind === 'film',
  );
  const texts = films.map((film) => toNotation(film, written(film.foot, randomSides(film.seed))));
  const visits = await measured(new Map(texts.map((text, index) => [String(index), text])));
  const comparison = new Comparison();
  let predicted = 0;
  films.forEach((film, index) => {
    const where = `front ${film.seed}`;
    const cut = randomSides(film.seed);
    const trim = visits.get(String(index))?.trims[0];
    const after = frontTrimmed(film.film, cut);
    comparison.same(where, 'whether it is predicted', trim?.sides !== undefined, after !== undefined);
    if (!after || !trim?.sides) return;
    predicted += 1;
    comparison.close(where, 'delta', trim.sides.delta, after.delta, 1e-9);
    const spreads = spreadsOf(film.film, (one) => frontTrimmed(one, cut)?.predicted ?? new Map());
    const names = new Set([...after.predicted.keys(), ...Object.keys(trim.sides.predicted)]);
    comparison.measures(where, trim.sides.predicted, { values: after.predicted, spreads, unitOf: frontUnitOf }, names);
  });
  comparison.finish();
  expect(predicted).toBeGreaterThan(FILMS / 4);
  expect(films.length - predicted).toBeGreaterThan(10);
});

/**
 * By hand: a foot 120 mm wide, 1 px a mm, whose bone stands level 20 mm above the ground from x = 25 to x = 95. The inner
 * side comes down by 6 mm: it turns by atan2(-6, 120) = -2.862°, so the bone's outer side comes to stand 2.862° higher;
 * its inner end lies at (20 - 6 (120 - 25) / 120) cos 2.862° = 15.231 mm above the new ground, its outer end at
 * (20 - 6 (120 - 95) / 120) cos 2.862° = 18.727 mm.
 */
it('of a level bone agrees with the numbers worked out by hand', async () => {
  const text = `hoof 1

case "Made up"
  animal horse

visit 2026-03-04
  film LF front "front.png"
    scale 1 mm/px
    ground 0, 200 .. 120, 200
    wall.medial @ 0, 200
    wall.lateral @ 120, 200
    p3.medial @ 25, 180
    p3.lateral @ 95, 180
  trim LF
    inside down 6 mm
`;
  const sides = (await measured(new Map([['by-hand', text]]))).get('by-hand')?.trims[0]?.sides;
  expect(sides?.delta).toBeCloseTo(-2.8624, 4);
  expect(sides?.predicted['p3-tilt']?.value).toBeCloseTo(2.8624, 4);
  expect(sides?.predicted['sole-depth.medial']?.value).toBeCloseTo(15.231, 3);
  expect(sides?.predicted['sole-depth.lateral']?.value).toBeCloseTo(18.727, 3);
});
