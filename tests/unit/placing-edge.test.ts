import { describe, expect, it } from 'vitest';
import { nearestEdge, type Patch } from '../../src/preview/placing/edge.ts';
import { Dice } from '../property/dice.ts';

const side = 40;

/** A patch from its shade at each place; the middle of the first pixel lies at 0.5, 0.5. */
function patch(shade: (x: number, y: number) => number): Patch {
  const shades = new Float32Array(side * side);
  for (let row = 0; row < side; row++)
    for (let column = 0; column < side; column++) shades[row * side + column] = shade(column + 0.5, row + 0.5);
  return { width: side, height: side, shades };
}

/** From dark to light over a few pixels, as on a film; steepest at 0. */
const step = (across: number, blur = 1.2): number => 60 + 120 / (1 + Math.exp(-across / blur));

describe('the edge beside a place', () => {
  it.each([
    [0, 20.3],
    [30, 19.1],
    [77, 20.8],
    [135, 18.6],
    [200, 21.4],
  ])('is found to a fraction of a pixel (turned by %i degrees)', (degrees, off) => {
    const way = { x: Math.cos((degrees * Math.PI) / 180), y: Math.sin((degrees * Math.PI) / 180) };
    const across = (x: number, y: number): number => (x - 20) * way.x + (y - 20) * way.y - (off - 20);
    const edge = nearestEdge(
      patch((x, y) => step(across(x, y))),
      { x: 22, y: 17 },
      8,
    );
    expect(edge).not.toBeNull();
    expect(Math.abs(across(edge?.x ?? 0, edge?.y ?? 0))).toBeLessThan(0.15);
    expect(Math.hypot((edge?.x ?? 0) - 22, (edge?.y ?? 0) - 17)).toBeLessThan(9);
  });

  it('is the nearer one of two that are alike', () => {
    const two = patch((x) => step(x - 15) + step(26 - x));
    expect(nearestEdge(two, { x: 17, y: 20 }, 12)?.x).toBeCloseTo(15, 0);
    expect(nearestEdge(two, { x: 25, y: 20 }, 12)?.x).toBeCloseTo(26, 0);
  });

  it('is none in an even place, in grain, or further off than is looked', () => {
    const dice = new Dice(9);
    expect(
      nearestEdge(
        patch(() => 90),
        { x: 20, y: 20 },
        8,
      ),
    ).toBeNull();
    expect(
      nearestEdge(
        patch(() => 90 + dice.between(-4, 4)),
        { x: 20, y: 20 },
        8,
      ),
    ).toBeNull();
    expect(
      nearestEdge(
        patch((x) => step(x - 34, 0.6)),
        { x: 20, y: 20 },
        6,
      ),
    ).toBeNull();
  });
});
