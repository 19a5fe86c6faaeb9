/** Worked examples that can be followed on paper: they test the oracle, not the product. */

import { describe, expect, it } from 'vitest';
import { BONE, filmed } from './on-paper.ts';
import { countedCut, countedFilm, isHeight } from './ranges.ts';

describe('what counts', () => {
  const film = filmed(BONE);

  it('is all of a plain film', () => {
    expect(countedFilm({ ...film, magnify: 1.04, readerSpread: 3 })).toEqual({
      ...film,
      magnify: 1.04,
      readerSpread: 3,
    });
  });

  it('is no place beyond 100,000 px, and no spread beyond 500', () => {
    const places = [
      { name: 'p3.tip', x: 100_000, y: -100_000, spread: 500 },
      { name: 'p3.wing', x: 100_001, y: 1 },
      { name: 'p3.extensor', x: 1, y: 1, spread: 501 },
      { name: 'sole.tip', x: 1, y: 1, spread: -1 },
    ];
    expect(countedFilm({ landmarks: places }).landmarks.map(({ name }) => name)).toEqual(['p3.tip']);
  });

  it('is no ground line and no scale of no length, and none that no pixel has', () => {
    const a = { x: 1, y: 1 };
    expect(countedFilm({ landmarks: [], ground: { a, b: { ...a } } }).ground).toBeUndefined();
    const scaled = (length: number, x: number): unknown =>
      countedFilm({ landmarks: [], scale: { form: 'marker', length, unit: 'mm', ends: { a, b: { x, y: 1 } } } }).scale;
    expect(scaled(100, 1)).toBeUndefined();
    expect(scaled(100, 20)).toBeUndefined();
    expect(scaled(100, 21)).toBeDefined();
    expect(scaled(1001, 10_001)).toBeUndefined();
    for (const mmPerPx of [0, -1, 0.0049, 5.1])
      expect(countedFilm({ landmarks: [], scale: { form: 'stated', mmPerPx } }).scale).toBeUndefined();
    expect(countedFilm({ landmarks: [], magnify: 2.1 }).magnify).toBeUndefined();
  });

  it('has no scale by which no equid could have the foot: 900 px of bone, 1400 px of ground, or all landmarks', () => {
    const of = (mmPerPx: number, ...names: string[]): boolean => {
      const places = { 'p3.tip': [0, 0], 'p3.wing': [900, 0], 'heel.ground': [1000, 0], 'toe.ground': [-400, 0] };
      const landmarks = Object.entries({ ...places, 'sole.tip': [0, 0], 'sole.heel': [0, 30], 'sole.wing': [9, 0] })
        .filter(([name]) => names.includes(name))
        .map(([name, [x = 0, y = 0]]) => ({ name, x, y }));
      return countedFilm({ landmarks, scale: { form: 'stated', mmPerPx } }).scale !== undefined;
    };
    const bone = ['p3.tip', 'p3.wing', 'toe.ground', 'heel.ground'];
    expect([0.02, 0.023, 0.144, 0.146].map((size) => of(size, ...bone))).toEqual([false, true, true, false]);
    const ground = ['p3.tip', 'toe.ground', 'heel.ground'];
    expect([0.021, 0.022, 0.214, 0.215].map((size) => of(size, ...ground))).toEqual([false, true, true, false]);
    const sole = ['sole.tip', 'sole.heel', 'sole.wing'];
    expect([0.15, 0.2, 4.9].map((size) => of(size, ...sole))).toEqual([false, true, true]);
    expect(of(0.01, 'sole.tip', 'sole.heel')).toBe(true);
    expect(of(0.01)).toBe(true);
  });

  it('is a cut from 0 to 60 mm and a height from 50 to 220 cm', () => {
    expect(countedCut({ heelDown: 60, toeDown: 60.1, toeBack: -1 })).toEqual({ heelDown: 60, toeDown: 0, toeBack: 0 });
    expect([499, 500, 2200, 2201].map(isHeight)).toEqual([false, true, true, false]);
  });
});
