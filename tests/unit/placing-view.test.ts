import { describe, expect, it } from 'vitest';
import { Dice } from '../property/dice.ts';
import {
  besidePlace,
  held,
  onto,
  panned,
  pinched,
  toPicture,
  toStage,
  wheelFactor,
  wholeSight,
  zoomed,
} from '../../src/preview/placing/view.ts';
import { overviewPlace } from '../../src/preview/placing/overview.ts';

const stage = { width: 900, height: 700 };
const picture = { width: 1400, height: 1200 };

const close = (a: { x: number; y: number }, b: { x: number; y: number }): void => {
  expect(a.x).toBeCloseTo(b.x, 6);
  expect(a.y).toBeCloseTo(b.y, 6);
};

describe('how the picture lies on the stage', () => {
  it('shows the whole at first, in the middle', () => {
    const sight = wholeSight(stage, picture);
    const [corner, end] = [toStage(sight, stage, { x: 0, y: 0 }), toStage(sight, stage, { x: 1400, y: 1200 })];
    expect(corner.y).toBeCloseTo(6);
    expect(end.y).toBeCloseTo(694);
    expect(corner.x).toBeGreaterThan(0);
    expect(corner.x).toBeCloseTo(900 - end.x);
  });

  it('goes to the picture and back without loss', () => {
    const dice = new Dice(3);
    for (let round = 0; round < 200; round++) {
      const sight = { x: dice.between(0, 1400), y: dice.between(0, 1200), zoom: dice.between(0.1, 30) };
      const place = { x: dice.between(0, 900), y: dice.between(0, 700) };
      close(toStage(sight, stage, toPicture(sight, stage, place)), place);
    }
  });

  it('comes closer towards the pointer: what lies under it stays there', () => {
    const dice = new Dice(4);
    let sight = wholeSight(stage, picture);
    for (let turns = 0; turns < 20; turns++) {
      const at = toStage(sight, stage, { x: dice.between(300, 1100), y: dice.between(300, 900) });
      const next = zoomed(sight, stage, picture, at, 1.2);
      close(toPicture(next, stage, at), toPicture(sight, stage, at));
      sight = next;
    }
    expect(sight.zoom).toBeGreaterThan(10);
  });

  it('stops at a largest and a smallest, and keeps some of the picture in the middle', () => {
    const whole = wholeSight(stage, picture);
    const middle = { x: 450, y: 350 };
    expect(zoomed(whole, stage, picture, middle, 1e6).zoom).toBe(32);
    expect(zoomed(whole, stage, picture, middle, 1e-6).zoom).toBeCloseTo(whole.zoom / 2);
    expect(panned(whole, stage, picture, 1e6, -1e6)).toMatchObject({ x: 0, y: 1200 });
    expect(held({ x: -5, y: 2000, zoom: 1 }, stage, picture)).toEqual({ x: 0, y: 1200, zoom: 1 });
  });

  it('keeps two fingers on what they hold', () => {
    const sight = { x: 700, y: 600, zoom: 1 };
    const from = [
      { x: 300, y: 300 },
      { x: 500, y: 300 },
    ] as const;
    const to = [
      { x: 260, y: 340 },
      { x: 660, y: 340 },
    ] as const;
    const next = pinched(sight, stage, picture, from, to);
    expect(next.zoom).toBeCloseTo(2);
    close(toPicture(next, stage, to[0]), toPicture(sight, stage, from[0]));
    close(toPicture(next, stage, to[1]), toPicture(sight, stage, from[1]));
  });

  it('takes a wheel for what it is: back and forth come to nothing, and a wild one is tamed', () => {
    expect(wheelFactor(100, 0) * wheelFactor(-100, 0)).toBeCloseTo(1);
    expect(wheelFactor(-3, 1)).toBeCloseTo(wheelFactor(-48, 0));
    expect(wheelFactor(-1e9, 0)).toBeLessThan(2.2);
    expect(wheelFactor(-100, 0)).toBeGreaterThan(1);
  });

  it('keeps a place on the picture', () => {
    expect(onto(picture, { x: -3, y: 1300 })).toEqual({ x: 0, y: 1200 });
  });

  it('never lays the glass over the place that it shows, however small the stage and whatever lifts it', () => {
    const dice = new Dice(6);
    for (let round = 0; round < 3000; round++) {
      const small = { width: dice.between(60, 700), height: dice.between(60, 700) };
      const at = { x: dice.between(0, small.width), y: dice.between(0, small.height) };
      const { x, y } = besidePlace(small, at, 132, dice.pick([30, 64]));
      // Round it is, but a place under the corner of its box is too near as well.
      const hides = at.x > x && at.x < x + 132 && at.y > y && at.y < y + 132;
      expect({ small, at, hides }).toEqual({ small, at, hides: false });
    }
  });

  it('shows where one is while the film is seen from near, away from what is looked at', () => {
    const dice = new Dice(7);
    const whole = wholeSight(stage, picture);
    expect(overviewPlace(whole, stage, picture, null)).toBeNull();
    for (let round = 0; round < 500; round++) {
      const sight = { x: dice.between(0, 1400), y: dice.between(0, 1200), zoom: whole.zoom * dice.between(1.2, 9) };
      const looked = { x: dice.between(0, 1400), y: dice.between(0, 1200) };
      const place = overviewPlace(sight, stage, picture, looked);
      if (!place) throw new Error('no overview');
      const { at, size, window } = place;
      expect(size.width / size.height).toBeCloseTo(1400 / 1200, 6);
      for (const [low, high] of [
        [at.x, at.x + size.width],
        [at.y, at.y + size.height],
      ] as const)
        expect([low >= 0, high <= 900]).toEqual([true, true]);
      expect(at.y + size.height).toBeLessThanOrEqual(700);
      const spot = toStage(sight, stage, looked);
      const covers = spot.x > at.x && spot.x < at.x + size.width && spot.y > at.y && spot.y < at.y + size.height;
      expect(covers).toBe(false);
      // The frame is what the stage shows of the picture.
      const share = size.width / 1400;
      const [from, to] = [toPicture(sight, stage, { x: 0, y: 0 }), toPicture(sight, stage, { x: 900, y: 700 })];
      close(window, { x: Math.max(0, from.x) * share, y: Math.max(0, from.y) * share });
      expect(window.x + window.width).toBeCloseTo(Math.min(1400, to.x) * share, 6);
      expect(window.y + window.height).toBeCloseTo(Math.min(1200, to.y) * share, 6);
    }
  });

  it('lays the glass beside the place, on the stage, wherever the place is', () => {
    const dice = new Dice(5);
    for (const small of [stage, { width: 320, height: 300 }])
      for (let round = 0; round < 500; round++) {
        const at = { x: dice.between(0, small.width), y: dice.between(0, small.height) };
        const { x, y } = besidePlace(small, at, 132, 30);
        const hides = at.x > x && at.x < x + 132 && at.y > y && at.y < y + 132;
        expect({ at, hides }).toEqual({ at, hides: false });
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y + 132).toBeLessThanOrEqual(small.height);
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x + 132).toBeLessThanOrEqual(small.width);
      }
  });
});
