/** Worked examples that can be followed on paper: they test the oracle, not the product. */

import { describe, expect, it } from 'vitest';
import { frontFrameOf, frontMeasuresOf, frontUnitOf } from './front.ts';
import type { Film } from './lateral.ts';
import { DEGREE, filmed, type Places } from './on-paper.ts';
import { solarMeasuresOf, solarUnitOf } from './solar.ts';
import { spreadsOf } from './spread.ts';

/** Medial towards -x. */
const FRONT: Places = {
  'p3.medial': [-40, 20],
  'p3.lateral': [40, 20],
  'joint.medial': [-30, 50],
  'joint.lateral': [30, 50 + 60 * Math.tan(3 * DEGREE)],
  'coronet.medial': [-50, 70],
  'coronet.lateral': [50, 70 - 100 * Math.tan(2 * DEGREE)],
  'wall.medial': [-50, 0],
  'wall.lateral': [120, 0],
};

const without = (places: Places, ...names: string[]): Places =>
  Object.fromEntries(Object.entries(places).filter(([name]) => !names.includes(name)));

const rounded = (values: ReadonlyMap<string, number>): Record<string, number> =>
  Object.fromEntries([...values].map(([measure, value]) => [measure, Math.round(value * 1e9) / 1e9]));

describe('the front view', () => {
  const lateralFall = 70 - 100 * Math.tan(2 * DEGREE);
  const expected: Record<string, number> = {
    'p3-tilt': 0,
    'joint-tilt': 3,
    'coronet-tilt': -2,
    'wall-angle.medial': 90,
    'wall-angle.lateral': Math.atan(lateralFall / 70) / DEGREE,
    'sole-depth.medial': 20,
    'sole-depth.lateral': 20,
    'ground-width': 170,
  };
  const expectFront = (film: Film, measures: Record<string, number>): void => {
    const values = frontMeasuresOf(film);
    expect([...values.keys()].sort()).toEqual(Object.keys(measures).sort());
    for (const [measure, value] of Object.entries(measures)) expect(values.get(measure), measure).toBeCloseTo(value, 9);
  };

  it('is measured from medial to lateral, on whichever side of the picture medial lies', () => {
    for (const facing of [1, -1] as const)
      for (const tiltDegrees of [0, 25, -25, 170])
        for (const ground of [true, false]) expectFront(filmed(FRONT, { facing, tiltDegrees, ground }), expected);
  });

  it('does not mind the order of the ground ends', () => {
    const film = filmed(FRONT, { tiltDegrees: 11 });
    if (film.ground) film.ground = { a: film.ground.b, b: film.ground.a };
    expectFront(film, expected);
  });

  it('opens both wall angles into the foot', () => {
    // The medial wall leans out of the foot by 30 degrees, the lateral one into it by 45.
    const walls: Places = {
      'wall.medial': [-50, 0],
      'coronet.medial': [-60, 10 * Math.sqrt(3)],
      'wall.lateral': [50, 0],
      'coronet.lateral': [10, 40],
    };
    const { 'wall-angle.medial': medial, 'wall-angle.lateral': lateral } = rounded(
      frontMeasuresOf(filmed(walls, { facing: -1, ground: false })),
    );
    expect([medial, lateral]).toEqual([120, 45]);
  });

  it('believes the bone before the hairline, and the hairline before the wall', () => {
    const swapped = (part: string): Places => ({
      [`${part}.medial`]: FRONT[`${part}.lateral`] as [number, number],
      [`${part}.lateral`]: FRONT[`${part}.medial`] as [number, number],
    });
    const width = (places: Places): number | undefined => rounded(frontMeasuresOf(filmed(places)))['ground-width'];
    expect(width({ ...FRONT, ...swapped('p3') })).toBe(-170);
    expect(width({ ...FRONT, ...swapped('coronet') })).toBe(170);
    expect(width(without({ ...FRONT, ...swapped('coronet') }, 'p3.lateral'))).toBe(-170);
    expect(width({ ...FRONT, ...swapped('wall') })).toBe(-170);
    expect(width(without({ ...FRONT, ...swapped('wall') }, 'p3.medial', 'coronet.medial'))).toBe(170);
  });

  it('has no measure where no pair but the joint tells the sides, or without a ground', () => {
    const single = without(FRONT, 'p3.lateral', 'coronet.lateral', 'wall.lateral');
    expect(frontFrameOf(filmed(single))).toBeUndefined();
    expect(frontMeasuresOf(filmed(single)).size).toBe(0);
    expect(frontMeasuresOf(filmed(without(FRONT, 'wall.medial'), { ground: false })).size).toBe(0);
  });

  it('has its upper side where the bone is, one point of it being enough', () => {
    const deep: Places = { ...without(FRONT, 'p3.lateral'), 'wall.lateral': [120, -900] };
    expect(frontMeasuresOf(filmed(deep)).get('sole-depth.medial')).toBeCloseTo(20, 9);
    expect(frontMeasuresOf(filmed(deep)).get('joint-tilt')).toBeCloseTo(3, 9);
    // Without the bone the mean of all decides, and one point far below the ground turns it over.
    const boneless = without(deep, 'p3.medial');
    expect(frontMeasuresOf(filmed(boneless)).get('joint-tilt')).toBeCloseTo(-3, 9);
  });

  it('has angles only without a scale', () => {
    const film = filmed(FRONT);
    delete film.scale;
    const angles = Object.entries(expected).filter(([measure]) => frontUnitOf(measure) === 'deg');
    expect(angles).toHaveLength(5);
    expectFront(film, Object.fromEntries(angles));
  });

  it('spreads a margin by its own placing and by the ground below it', () => {
    // The ground is 150 mm long, from -100 to 50: below -40 its ends weigh 0.6 and 0.4.
    const film = filmed(FRONT);
    const radians = Math.sqrt(2 * 0.5 ** 2 * (1 / 80 ** 2 + 1 / 150 ** 2));
    const spreads = spreadsOf(film, frontMeasuresOf);
    expect(spreads.get('sole-depth.medial')).toBeCloseTo(0.5 * Math.sqrt(1 + 0.6 ** 2 + 0.4 ** 2), 6);
    expect(spreads.get('p3-tilt')).toBeCloseTo(radians / DEGREE, 6);
    expect(spreads.get('ground-width')).toBeCloseTo(0.5 * Math.SQRT2, 6);
  });
});

describe('the solar view', () => {
  const SOLAR: Places = {
    'heel.medial': [-30, -3],
    'heel.lateral': [30, 3],
    toe: [0, 120],
    'wide.medial': [-60, 50],
    'wide.lateral': [60, 70],
    'frog.apex': [5, 78],
    'frog.base': [-1, 0],
    'frog.medial': [-20, 10],
    'frog.lateral': [20, 10],
  };
  const expected: Record<string, number> = {
    'sole-length': 120,
    'sole-width': Math.hypot(120, 20),
    'heel-width': Math.hypot(60, 6),
    'frog-width': 40,
    'frog-length': Math.hypot(6, 78),
    'width-share': (100 * Math.hypot(120, 20)) / 120,
    'heel-frog-share': (100 * Math.hypot(60, 6)) / 40,
    'toe-split': 50,
    'frog-place': 65,
  };
  const expectSolar = (film: Film, measures: Record<string, number>): void => {
    const values = solarMeasuresOf(film);
    expect([...values.keys()].sort()).toEqual(Object.keys(measures).sort());
    for (const [measure, value] of Object.entries(measures)) expect(values.get(measure), measure).toBeCloseTo(value, 9);
  };

  it('is measured from the middle of the heels to the toe, however the picture is held', () => {
    for (const facing of [1, -1] as const)
      for (const tiltDegrees of [0, 40, -100, 180])
        for (const ground of [true, false]) expectSolar(filmed(SOLAR, { facing, tiltDegrees, ground }), expected);
  });

  it('follows the toe where it lies off the middle', () => {
    // The axis leans 3 in 4: length 100, and the apex is 40 mm along it from the middle of the heels.
    const film = filmed({
      'heel.medial': [-30, 0],
      'heel.lateral': [30, 0],
      toe: [60, 80],
      'frog.apex': [0, 50],
    });
    expectSolar(film, { 'sole-length': 100, 'heel-width': 60, 'frog-place': 40 });
  });

  it('has no measure without toe or either heel, and no split with one side of the widest place', () => {
    for (const name of ['toe', 'heel.medial', 'heel.lateral'])
      expect(solarMeasuresOf(filmed(without(SOLAR, name))).size, name).toBe(0);
    const { 'sole-width': _, 'width-share': __, 'toe-split': ___, ...rest } = expected;
    expectSolar(filmed(without(SOLAR, 'wide.lateral')), rest);
  });

  it('has shares only without a scale', () => {
    const film = filmed(SOLAR);
    delete film.scale;
    const shares = Object.entries(expected).filter(([measure]) => solarUnitOf(measure) === '%');
    expect(shares).toHaveLength(4);
    expectSolar(film, Object.fromEntries(shares));
  });

  it('spreads a length by the toe and by half of either heel, and by no ground line', () => {
    const film = filmed({ 'heel.medial': [-30, 0], 'heel.lateral': [30, 0], toe: [0, 120] });
    const spreads = spreadsOf(film, solarMeasuresOf);
    expect(spreads.get('sole-length')).toBeCloseTo(0.5 * Math.sqrt(1 + 0.5), 6);
    expect(spreads.get('heel-width')).toBeCloseTo(0.5 * Math.SQRT2, 6);
  });
});
