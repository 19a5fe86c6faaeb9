/** Worked examples that can be followed on paper: they test the oracle, not the product. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameOf, measuresOf, scaleOf, turn, usesShortAxis, type Film, type Point } from './lateral.ts';
import { BONE, DEGREE, expectMeasures, filmed, type Places } from './on-paper.ts';
import { drawnSpreads, spreadsOf } from './spread.ts';
import { trimmed } from './trim.ts';
import { seeded } from '../dice.ts';
import { anyFoot } from '../random-foot.ts';

describe('the frame', () => {
  it('gives a palmar angle of 5 degrees whichever way the foot faces and the ground tilts', () => {
    for (const facing of [1, -1] as const) {
      for (const tiltDegrees of [0, 20, -25]) {
        expectMeasures(filmed(BONE, { facing, tiltDegrees }), { 'palmar-angle': 5 });
      }
    }
  });

  it('does not mind the order of the ground ends', () => {
    const film = filmed(BONE, { tiltDegrees: 10 });
    if (film.ground) film.ground = { a: film.ground.b, b: film.ground.a };
    expectMeasures(film, { 'palmar-angle': 5 });
  });

  it('puts X = 0 below the tip and Y = 0 on the ground', () => {
    const points = frameOf(filmed({ 'p3.tip': [7, 18], 'p3.wing': [-53, 20] }, { tiltDegrees: 15 }))?.points;
    expect(points?.get('p3.tip')?.re).toBeCloseTo(0, 9);
    expect(points?.get('p3.tip')?.im).toBeCloseTo(18, 9);
    expect(points?.get('p3.wing')?.re).toBeCloseTo(-60, 9);
    expect(points?.get('p3.wing')?.im).toBeCloseTo(20, 9);
  });

  it('takes the ground from the contact points, and the facing from them without a wing', () => {
    const contact: Places = { 'toe.ground': [30, 0], 'heel.ground': [-70, 0] };
    const level = { ...BONE, ...contact };
    expectMeasures(filmed(level, { ground: false, tiltDegrees: 12, facing: -1 }), {
      'palmar-angle': 5,
      'bearing-length': 100,
    });
    const wingless = { 'p3.tip': [0, 20], 'heel.upper': [-90, 20], ...contact } satisfies Places;
    expectMeasures(filmed(wingless, { facing: -1 }), { 'heel-angle': 45 });
  });

  it('finds the upper side without a bone, as on a photo', () => {
    const photo = {
      'toe.ground': [30, 0],
      'heel.ground': [-70, 0],
      'heel.upper': [-90, 20],
    } satisfies Places;
    expectMeasures(filmed(photo, { facing: -1, tiltDegrees: 20 }), {
      'heel-angle': 45,
      'bearing-length': 100,
    });
  });

  it('has no measure without a ground or without a facing', () => {
    expect(measuresOf(filmed(BONE, { ground: false })).size).toBe(0);
    expect(measuresOf(filmed({ 'p3.tip': [0, 20], 'p3.navicular': [-40, 50] })).size).toBe(0);
  });

  it('takes the midpoint of two wings, and neither where only the other is placed', () => {
    const tip: Places = { 'p3.tip': [0, 10] };
    const wings: Places = { 'p3.wing': [-58, 66], 'p3.wing.other': [-62, 74] };
    expectMeasures(filmed({ ...tip, ...wings }), { 'palmar-angle': 45 });
    const contact: Places = { 'toe.ground': [30, 0], 'heel.ground': [-70, 0] };
    expect(measuresOf(filmed({ ...tip, ...contact, 'p3.wing.other': [-62, 74] })).has('palmar-angle')).toBe(false);
  });
});

describe('the picture', () => {
  function moved(film: Film, move: (point: Point) => Point): Film {
    const copy = structuredClone(film);
    const points: Point[] = [...copy.landmarks];
    if (copy.ground) points.push(copy.ground.a, copy.ground.b);
    if (copy.scale?.form === 'marker') points.push(copy.scale.ends.a, copy.scale.ends.b);
    for (const point of points) Object.assign(point, move(point));
    return copy;
  }

  it('may be turned and mirrored: no measure changes', () => {
    const angle = fc.double({ min: -180, max: 180, noNaN: true });
    fc.assert(
      fc.property(anyFoot(), angle, fc.boolean(), ({ film }, degrees, mirror) => {
        const cos = Math.cos(degrees * DEGREE);
        const sin = Math.sin(degrees * DEGREE);
        const other = moved(film, ({ x, y }) => ({
          x: (mirror ? -1 : 1) * (x * cos - y * sin),
          y: x * sin + y * cos,
        }));
        const here = measuresOf(film);
        const there = measuresOf(other);
        expect([...there.keys()]).toEqual([...here.keys()]);
        for (const [measure, value] of here) expect(there.get(measure), measure).toBeCloseTo(value, 8);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

describe('the scale', () => {
  const marker = (length: number, unit: 'mm' | 'cm' | 'in', dx: number, dy: number): Film => ({
    landmarks: [],
    scale: { form: 'marker', length, unit, ends: { a: { x: 10, y: 20 }, b: { x: 10 + dx, y: 20 + dy } } },
  });

  it('reads a marker in every unit', () => {
    expect(scaleOf(marker(100, 'mm', 600, 800))).toBeCloseTo(0.1, 12);
    expect(scaleOf(marker(10, 'cm', -1000, 0))).toBeCloseTo(0.1, 12);
    expect(scaleOf(marker(4, 'in', 0, 1016))).toBeCloseTo(0.1, 12);
  });

  it('is divided by magnify in either form', () => {
    expect(scaleOf({ ...marker(125, 'mm', 1000, 0), magnify: 1.25 })).toBeCloseTo(0.1, 12);
    expect(scaleOf({ landmarks: [], scale: { form: 'stated', mmPerPx: 0.125 }, magnify: 1.25 })).toBeCloseTo(0.1, 12);
  });

  it('is needed for lengths, not for angles and ratios', () => {
    const film = filmed({
      ...BONE,
      'toe.ground': [30, 0],
      'heel.ground': [-70, 0],
      'coffin.centre': [-30, 45],
    });
    delete film.scale;
    expect([...measuresOf(film).keys()].sort()).toEqual(['palmar-angle', 'toe-share']);
    expectMeasures(film, { 'toe-share': 60 });
  });
});

describe('angles', () => {
  it('open towards the heel, and their differences follow', () => {
    const film = filmed({
      ...BONE,
      'wall.lower': [30, 5],
      'wall.upper': [30 - 40, 5 + 40],
      'p3.dorsal.lower': [-5, 10],
      'p3.dorsal.upper': [-5 - 20, 10 + 20 * Math.sqrt(3)],
      'coffin.centre': [-30, 45],
      'pastern.centre': [-30 - 30 * Math.sqrt(3), 45 + 30],
      'fetlock.centre': [-30, 200],
      'heel.ground': [-70, 0],
      'heel.upper': [-70 - 17.320508075688775, 10],
      'coronet.dorsal': [-20, 80],
      'coronet.heel': [-60, 40],
    });
    expectMeasures(film, {
      'wall-angle': 45,
      'bone-angle': 60,
      'middle-angle': 30,
      'axis-angle': 90,
      'heel-angle': 30,
      'coronet-angle': 45,
      'capsular-rotation': 15,
      'phalangeal-rotation': 30,
      'hoof-pastern-deviation': -45,
      'toe-heel-difference': 15,
    });
    expect(usesShortAxis(film)).toBe(false);
    film.landmarks = film.landmarks.filter(({ name }) => name !== 'fetlock.centre');
    expectMeasures(film, { 'hoof-pastern-deviation': 15 });
    expect(usesShortAxis(film)).toBe(true);
    expect(measuresOf(film).has('axis-angle')).toBe(false);
  });

  it('brings differences into (-180, 180]', () => {
    expect([190, -190, 180, -180, 540, 5].map(turn)).toEqual([-170, 170, 180, 180, 180, 5]);
  });
});

describe('lengths and ratios', () => {
  const film = filmed(
    {
      'p3.tip': [0, 20],
      'p3.wing': [-60, 26],
      'p3.extensor': [-40, 68],
      'p3.navicular': [-48, 34],
      'p3.dorsal.lower': [-10, 30],
      'p3.dorsal.upper': [-40, 60],
      'wall.lower': [20, 20],
      'wall.upper': [-10, 50],
      'wall.inner.lower': [0, 30],
      'wall.inner.upper': [-40, 70],
      'wall.top': [-30, 70],
      'wall.turn': [0, 40],
      'coronet.dorsal': [-40, 80],
      'coronet.heel': [-90, 80],
      'navicular.upper': [-60, 50],
      'toe.ground': [40, -1],
      'heel.ground': [-80, 1],
      'sole.tip': [0, 8],
      'sole.wing': [-60, 11],
      'sole.heel': [-75, 6],
      breakover: [25, 0],
      'coffin.centre': [-32, 50],
      'pastern.centre': [-62, 90],
      'fetlock.centre': [-122, 170],
    },
    { facing: -1, tiltDegrees: 17 },
  );

  it('are heights, distances and reaches', () => {
    expectMeasures(film, {
      'founder-distance': 2,
      'coronet-extensor': 12,
      'sole-depth.tip': 12,
      'sole-depth.wing': 15,
      'cup.tip': 8,
      'cortex-length': 50,
      'heel-height': 79,
      'heel-surplus': 5,
      'toe-length': Math.sqrt(80 ** 2 + 81 ** 2),
      'bearing-length': 120,
      'breakover-reach': 25,
      'coronet-navicular': 30,
      'grown-out': Math.sqrt(40 ** 2 + 40 ** 2),
    });
  });

  it('measure the wall outward from the face, at right angles', () => {
    // Both lines lean at 45 degrees: the wall is 20 mm outward along X, the inner edge 10 mm.
    for (const level of ['upper', 'middle', 'lower']) {
      expectMeasures(film, {
        [`horn-lamellar.${level}`]: 20 * Math.SQRT1_2,
        [`lamellar-zone.${level}`]: 10 * Math.SQRT1_2,
      });
    }
  });

  it('follow a diverging wall along the normal of the bone, not of the wall', () => {
    // Upright bone face, normals level: the line falls 1 in 2, so each level reaches its own width.
    const wedge = filmed({
      ...BONE,
      'p3.dorsal.lower': [0, 10],
      'p3.dorsal.upper': [0, 50],
      'wall.lower': [30, 0],
      'wall.upper': [0, 60],
    });
    expectMeasures(wedge, {
      'horn-lamellar.lower': 25,
      'horn-lamellar.middle': 15,
      'horn-lamellar.upper': 5,
    });
  });

  it('make ratios', () => {
    expectMeasures(film, {
      'horn-lamellar-share': (100 * 20 * Math.SQRT1_2) / 50,
      'lamellar-share': (100 * 10 * Math.SQRT1_2) / 50,
      'toe-share': 60,
      'phalanx-ratio': 2,
      'grown-out-share': (100 * Math.sqrt(3200)) / Math.sqrt(12961),
    });
  });

  it('count the navicular as negative where it lies above the coronet line', () => {
    const high = filmed({
      ...BONE,
      'coronet.dorsal': [-40, 80],
      'coronet.heel': [-90, 30],
      'navicular.upper': [-65, 65],
    });
    expectMeasures(high, { 'coronet-navicular': -10 * Math.SQRT1_2 });
  });
});

describe('the trim', () => {
  const foot = filmed({
    'p3.tip': [0, 20],
    'p3.wing': [-60, 20 + 60 * Math.tan(10 * DEGREE)],
    'p3.dorsal.lower': [-10, 30],
    'p3.dorsal.upper': [-40, 60],
    'wall.lower': [20, 20],
    'wall.upper': [-10, 50],
    'p3.extensor': [-40, 68],
    'wall.top': [-30, 70],
    'coronet.dorsal': [-40, 80],
    'coronet.heel': [-90, 40],
    'heel.ground': [-70, 0],
    'heel.upper': [-90, 20],
    'toe.ground': [30, 0],
    'coffin.centre': [-30, 50],
    'pastern.centre': [-60, 90],
    'sole.tip': [0, 8],
    'sole.wing': [-60, 3],
    'sole.heel': [-65, 6],
  });

  it('turns the foot by atan(0.05) for a heel cut of 5 mm over 100 mm', () => {
    const after = trimmed(foot, { heelDown: 5, toeDown: 0, toeBack: 0 });
    const before = measuresOf(foot);
    expect(after?.delta).toBeCloseTo(2.862, 3);
    for (const angle of ['palmar-angle', 'wall-angle', 'bone-angle', 'heel-angle', 'coronet-angle']) {
      const fall = (before.get(angle) ?? NaN) - (after?.predicted.get(angle) ?? NaN);
      // The coronet angle opens the other way: the hairline steepens as the heel comes down.
      expect(fall, angle).toBeCloseTo((angle === 'coronet-angle' ? -1 : 1) * 2.8624052261, 9);
    }
    expect(after?.predicted.get('palmar-angle')).toBeCloseTo(7.1375947739, 9);
    expect(after?.predicted.get('middle-angle')).toBeCloseTo(before.get('middle-angle') ?? NaN, 9);
    expect(after?.predicted.get('phalangeal-rotation')).toBeCloseTo(45 - 53.1301023542 - 2.8624052261, 9);
    expect(after?.predicted.get('hoof-pastern-deviation')).toBeCloseTo(45 - 53.1301023542 - 2.8624052261, 9);

    // The new line stands 5 - 0.05 x above the old one at x mm before the heel.
    const cos = 1 / Math.sqrt(1 + 0.05 ** 2);
    expect(after?.predicted.get('sole-depth.tip')).toBeCloseTo(12 * cos, 9);
    expect(after?.soleCut.get('tip')).toBe(0);
    expect(after?.soleCut.get('wing')).toBeCloseTo((4.5 - 3) * cos, 9);
    expect(after?.predicted.get('sole-depth.wing')).toBeCloseTo((20 + 60 * Math.tan(10 * DEGREE) - 4.5) * cos, 9);
    expect(after?.soleCut.get('heel')).toBe(0);
    expect(after?.predicted.get('heel-height')).toBeCloseTo((40 - 6) * cos, 9);
    expect(after?.predicted.get('founder-distance')).toBeCloseTo((70 - 68 + 0.05 * 10) * cos, 9);
    expect(after?.predicted.get('coronet-extensor')).toBeCloseTo(12 * cos, 9);
  });

  it('lowers a level foot level', () => {
    const after = trimmed(foot, { heelDown: 10, toeDown: 10, toeBack: 0 });
    expect(after?.delta).toBe(0);
    expect(after?.predicted.get('sole-depth.tip')).toBeCloseTo(10, 9);
    expect(Object.fromEntries(after?.soleCut ?? [])).toEqual({
      tip: expect.closeTo(2, 9),
      wing: expect.closeTo(7, 9),
      heel: expect.closeTo(4, 9),
    });
    expect(after?.predicted.get('heel-height')).toBeCloseTo(30, 9);
    expect(after?.wallLeft).toBeCloseTo(20 * Math.SQRT1_2, 9);
  });

  it('shortens the bearing and thins the wall with toe back', () => {
    const after = trimmed(foot, { heelDown: 4, toeDown: 0, toeBack: 20 });
    expect(after?.delta).toBeCloseTo(2.8624052261, 9);
    expect(after?.wallLeft).toBeCloseTo(0, 9);
  });

  it('without a cut predicts exactly what was measured, heel and toe off the ground line included', () => {
    const uneven = structuredClone(foot);
    for (const landmark of uneven.landmarks) {
      if (landmark.name === 'heel.ground') landmark.y -= 12;
      if (landmark.name === 'toe.ground') landmark.y += 9;
    }
    const before = measuresOf(uneven);
    const after = trimmed(uneven, { heelDown: 0, toeDown: 0, toeBack: 0 });
    expect(after?.delta).toBe(0);
    expect(after?.predicted.size).toBeGreaterThan(10);
    for (const [measure, value] of after?.predicted ?? []) {
      expect(value, measure).toBeCloseTo(before.get(measure) ?? NaN, 9);
    }
  });

  it('predicts nothing without a scale or a contact point', () => {
    const cut = { heelDown: 5, toeDown: 0, toeBack: 0 };
    const unscaled = structuredClone(foot);
    delete unscaled.scale;
    expect(trimmed(unscaled, cut)).toBeUndefined();
    const toeless = { ...foot, landmarks: foot.landmarks.filter(({ name }) => name !== 'toe.ground') };
    expect(trimmed(toeless, cut)).toBeUndefined();
  });
});

describe('spreads', () => {
  it('of a palmar angle add the bone and the ground, each over its own length', () => {
    // 0.5 mm at each end of a bone of 60 mm and of a ground line of 150 mm, all level.
    const level = filmed({ 'p3.tip': [0, 20], 'p3.wing': [-60, 20] });
    const radians = Math.sqrt(2 * 0.5 ** 2 * (1 / 60 ** 2 + 1 / 150 ** 2));
    expect(spreadsOf(level, measuresOf).get('palmar-angle')).toBeCloseTo(radians / DEGREE, 6);
  });

  it('of a distance add the marker that gave the scale', () => {
    // 50 mm between two placings of 4 px and 0.5 mm; a marker of 100 mm over 1000 px, 5 px each end.
    const film = filmed({ 'p3.tip': [0, 20], 'p3.wing': [-60, 20], 'p3.navicular': [-30, 60] });
    film.scale = {
      form: 'marker',
      length: 100,
      unit: 'mm',
      ends: { a: { x: 0, y: 0 }, b: { x: 1000, y: 0 } },
    };
    for (const landmark of film.landmarks) if (landmark.name === 'p3.tip') landmark.spread = 4;
    const expected = Math.sqrt(0.4 ** 2 + 0.5 ** 2 + ((50 * Math.SQRT2 * 5) / 1000) ** 2);
    expect(spreadsOf(film, measuresOf).get('cortex-length')).toBeCloseTo(expected, 6);
  });

  it("are 5 px without a scale, or the reader's own", () => {
    const film = filmed({ 'p3.tip': [0, 20], 'p3.wing': [-60, 20] });
    delete film.scale;
    const perPixel = Math.sqrt(2 * (1 / 600 ** 2 + 1 / 1500 ** 2)) / DEGREE;
    expect(spreadsOf(film, measuresOf).get('palmar-angle')).toBeCloseTo(5 * perPixel, 6);
    expect(spreadsOf({ ...film, readerSpread: 3 }, measuresOf).get('palmar-angle')).toBeCloseTo(3 * perPixel, 6);
  });

  it('shrink by the square root of two for the midpoint of two wings', () => {
    const far = filmed({
      'p3.tip': [0, 20],
      'p3.wing': [-60, 20],
      'p3.wing.other': [-60, 20],
      'sole.wing': [-60, 8],
    });
    // Height against height: 0.5 mm for the sole, 0.5/sqrt(2) mm for the wing; the ground falls out.
    expect(spreadsOf(far, measuresOf).get('sole-depth.wing')).toBeCloseTo(Math.sqrt(0.25 + 0.125), 6);
  });

  it('agree with drawing', () => {
    const level = filmed({ 'p3.tip': [0, 20], 'p3.wing': [-60, 20] });
    const drawn = drawnSpreads(level, measuresOf, 20_000, seeded(1)).get('palmar-angle') ?? NaN;
    const first = spreadsOf(level, measuresOf).get('palmar-angle') ?? NaN;
    expect(Math.abs(drawn / first - 1)).toBeLessThan(0.03);
  });
});
