import { derivative, parse, type EvalFunction } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Film, Point } from '../property/oracle/lateral.ts';
import { randomFoot, toNotation } from '../property/random-foot.ts';
import {
  alongGround,
  distance,
  heightOf,
  leveled,
  normalReach,
  slopeOf,
  squareOff,
  toScale,
} from './measure-formulas.ts';
import { readFilm } from './readings.ts';

/**
 * Standard deviations against mathjs: each measure as a formula in the picture's own pixels, differentiated by the symbolic
 * derivative of the library for every coordinate that it holds; then the law of propagation of uncertainty for independent
 * inputs (JCGM 100:2008, 5.1.2, equation 10).
 */
const formulas: Readonly<Record<string, string>> = {
  'palmar-angle': slopeOf('p3.tip', 'p3.wing'),
  'wall-angle': slopeOf('wall.lower', 'wall.upper'),
  'heel-angle': slopeOf('heel.ground', 'heel.upper'),
  'coronet-angle': slopeOf('coronet.heel', 'coronet.dorsal'),
  'axis-angle': slopeOf('coffin.centre', 'fetlock.centre'),
  'capsular-rotation': `${slopeOf('p3.dorsal.lower', 'p3.dorsal.upper')} - (${slopeOf('wall.lower', 'wall.upper')})`,
  'phalangeal-rotation': `${slopeOf('p3.dorsal.lower', 'p3.dorsal.upper')} - (${slopeOf('coffin.centre', 'pastern.centre')})`,
  // The coffin joint stands in both: a slip that takes them as independent shows here.
  'phalanx-ratio': `${distance('pastern.centre', 'fetlock.centre')} / ${distance('coffin.centre', 'pastern.centre')}`,
  'founder-distance': toScale(`${heightOf('wall.top')} - ${heightOf('p3.extensor')}`),
  'founder-distance.level': toScale(leveled('wall.top', 'p3.extensor')),
  'coronet-extensor.level': toScale(leveled('coronet.dorsal', 'p3.extensor')),
  'p3-length': toScale(distance('p3.tip', 'p3.wing')),
  'p2-length': toScale(distance('coffin.centre', 'pastern.centre')),
  'sole-depth.tip': toScale(`${heightOf('p3.tip')} - ${heightOf('sole.tip')}`),
  'sole-depth.wing': toScale(`${heightOf('p3.wing')} - ${heightOf('sole.wing')}`),
  'cup.tip': toScale(heightOf('sole.tip')),
  'coronet-navicular': toScale(squareOff('navicular.upper', 'coronet.heel', 'coronet.dorsal')),
  'horn-lamellar.upper': toScale(normalReach(1, 'wall.upper', 'wall.lower')),
  'horn-lamellar.middle': toScale(normalReach(0.5, 'wall.upper', 'wall.lower')),
  'lamellar-zone.lower': toScale(normalReach(0, 'wall.inner.upper', 'wall.inner.lower')),
  'cortex-length': toScale(distance('p3.tip', 'p3.navicular')),
  'bearing-length': toScale(`${alongGround('toe.ground')} - ${alongGround('heel.ground')}`),
  'breakover-reach': toScale(`${alongGround('breakover')} - ${alongGround('p3.tip')}`),
  'lamellar-share': `100 * (${normalReach(0.5, 'wall.inner.upper', 'wall.inner.lower')}) / ${distance('p3.tip', 'p3.navicular')}`,
  'toe-share': `100 * (${alongGround('toe.ground')} - ${alongGround('coffin.centre')}) / (${alongGround('toe.ground')} - ${alongGround('heel.ground')})`,
};

type Scope = Record<string, number>;

/** Every number of a film by the name it has in a formula, and the standard deviation of those that were placed. */
function numbersOf(film: Film): { scope: Scope; placed: Scope } {
  const { ground, scale, magnify = 1 } = film;
  if (!ground || scale?.form !== 'marker') throw new Error('only films with a ground line and a marker');
  const scope: Scope = { marker_mm: scale.length * { mm: 1, cm: 10, in: 25.4 }[scale.unit], magnify };
  const placed: Scope = {};
  const pixels = Math.hypot(scale.ends.b.x - scale.ends.a.x, scale.ends.b.y - scale.ends.a.y);
  const usual = (0.5 * pixels * magnify) / (scope['marker_mm'] ?? NaN);
  const place = (name: string, { x, y, spread = usual }: Point): void => {
    for (const [axis, value] of [
      ['x', x],
      ['y', y],
    ] as const) {
      scope[`${name}_${axis}`] = value;
      placed[`${name}_${axis}`] = spread;
    }
  };
  place('ground_a', ground.a);
  place('ground_b', ground.b);
  place('marker_a', scale.ends.a);
  place('marker_b', scale.ends.b);
  for (const { name, ...point } of film.landmarks) place(name.replaceAll('.', '_'), point);
  scope['side'] = sideOf(film, ground);
  return { scope, placed };
}

/** 1 where a turn from the way to the toe towards the bone's side of the ground is one from x to y of the picture, else -1. */
function sideOf({ landmarks }: Film, { a, b }: NonNullable<Film['ground']>): 1 | -1 {
  const named = (name: string): Point => landmarks.find((one) => one.name === name) ?? { x: NaN, y: NaN };
  const [tip, wing, extensor] = [named('p3.tip'), named('p3.wing'), named('p3.extensor')];
  const toToe = (tip.x - wing.x) * (b.x - a.x) + (tip.y - wing.y) * (b.y - a.y);
  const bone = { x: (tip.x + wing.x + extensor.x) / 3, y: (tip.y + wing.y + extensor.y) / 3 };
  const above = (b.x - a.x) * (bone.y - a.y) - (b.y - a.y) * (bone.x - a.x);
  return toToe * above > 0 ? 1 : -1;
}

const films = Array.from({ length: 300 }, (_, index) => randomFoot(50_000 + index, { complete: true })).filter(
  ({ film }) => film.scale?.form === 'marker' && !film.landmarks.some(({ name }) => name === 'p3.wing.other'),
);

describe('standard deviations against the derivatives of mathjs', () => {
  const measured = films.map((foot) => ({
    seed: foot.seed,
    product: readFilm(toNotation(foot)),
    ...numbersOf(foot.film),
  }));

  it('has films enough, many with a magnification, all with spreads of their own', () => {
    expect(measured.length).toBeGreaterThan(80);
    expect(films.filter(({ film }) => film.magnify !== undefined).length).toBeGreaterThan(20);
    expect(films.every(({ film }) => film.landmarks.some(({ spread }) => spread !== undefined))).toBe(true);
  });

  it.each(Object.entries(formulas))('%s', (measure, formula) => {
    const tree = parse(formula);
    const value = tree.compile();
    const names = [...new Set(tree.filter((node) => 'isSymbolNode' in node).map(String))];
    const partials = new Map<string, EvalFunction>();
    for (const { seed, product, scope, placed } of measured) {
      const where = `foot ${seed}`;
      let variance = 0;
      for (const name of names) {
        const sd = placed[name];
        if (sd === undefined) continue;
        const partial = partials.get(name) ?? derivative(tree, name, { simplify: false }).compile();
        partials.set(name, partial);
        variance += (Number(partial.evaluate(scope)) * sd) ** 2;
      }
      expect(Math.abs(product.sd(measure) / Math.sqrt(variance) - 1), where).toBeLessThan(1e-8);
      // The formulas know neither which way the foot faces nor where its heel is, so signs and half turns of a line are open.
      const [theirs, ours] = [Number(value.evaluate(scope)), product.value(measure)];
      const alike = /angle$|rotation$/.test(measure)
        ? (degrees: number) => Math.sin((degrees * Math.PI) / 180)
        : Number;
      expect(Math.abs(Math.abs(alike(theirs)) - Math.abs(alike(ours))), where).toBeLessThan(1e-8);
    }
    expect(partials.size).toBeGreaterThan(5);
  });
});
