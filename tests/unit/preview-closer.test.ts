import { expect, test } from 'vitest';
import { closerBy, movedBy, whole } from '../../src/preview/closer.ts';

const frame = { width: 400, height: 200 };

test('what lies under the pointer stays there, as often as one comes closer', () => {
  const at = { x: 300, y: 50 };
  let now = whole;
  for (let step = 0; step < 3; step++) now = closerBy(now, frame, at, 1.5);
  expect(now.times).toBeCloseTo(3.375);
  // The point of the drawing that lay at `at` when it was whole.
  expect(now.x + at.x * now.times).toBeCloseTo(at.x);
  expect(now.y + at.y * now.times).toBeCloseTo(at.y);
});

test('it is never smaller than the whole, nor so close that nothing can be made out', () => {
  expect(closerBy(whole, frame, { x: 10, y: 10 }, 0.1)).toEqual(whole);
  expect(closerBy(whole, frame, { x: 10, y: 10 }, 1e6).times).toBe(12);
});

test('the frame stays filled, whichever way it is moved', () => {
  const near = closerBy(whole, frame, { x: 200, y: 100 }, 2);
  expect(movedBy(near, frame, 1e4, 1e4)).toEqual({ times: 2, x: 0, y: 0 });
  expect(movedBy(near, frame, -1e4, -1e4)).toEqual({ times: 2, x: -400, y: -200 });
  expect(movedBy(near, frame, -30, 20)).toEqual({ times: 2, x: -230, y: -80 });
});

test('back to the whole, whatever it was moved to', () => {
  const moved = movedBy(closerBy(whole, frame, { x: 0, y: 0 }, 4), frame, -700, -300);
  expect(closerBy(moved, frame, { x: 399, y: 199 }, 0.25)).toEqual(whole);
});
