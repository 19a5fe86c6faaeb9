import Flatten from '@flatten-js/core';
import { describe, expect, it } from 'vitest';
import { circleThrough } from '../../shared/geometry/circle.ts';
import { randomFrom } from '../property/random-edits.ts';

/** The centre by the library's own primitives: where the perpendicular bisectors of two chords meet. */
function centreByLibrary(places: readonly { x: number; y: number }[]): Flatten.Point {
  const [a, b, c] = places.map(({ x, y }) => Flatten.point(x, y));
  if (!a || !b || !c) throw new Error('three places');
  const bisector = (p: Flatten.Point, q: Flatten.Point) =>
    Flatten.line(Flatten.segment(p, q).middle(), Flatten.vector(p, q));
  const [meet] = bisector(a, b).intersect(bisector(b, c));
  if (!meet) throw new Error('they do not meet');
  return meet;
}

describe('a circle through three places against @flatten-js/core', () => {
  it('has the centre where the bisectors meet, and passes through all three, on 500 rims', () => {
    const random = randomFrom(3);
    const between = (low: number, high: number): number => low + ((high - low) * random(1_000_000)) / 1_000_000;
    for (let n = 0; n < 500; n++) {
      const [x, y, radius, start] = [between(0, 3000), between(0, 3000), between(20, 400), between(0, 6.28)];
      const rim = [0, between(0.4, 1.2), between(1.6, 2.6)].map((turn) => ({
        x: x + radius * Math.cos(start + turn),
        y: y + radius * Math.sin(start + turn),
      }));
      const found = circleThrough(rim[0] as Flatten.Point, rim[1] as Flatten.Point, rim[2] as Flatten.Point);
      if (!found) throw new Error('no circle');
      const centre = centreByLibrary(rim);
      expect(found.x).toBeCloseTo(centre.x, 6);
      expect(found.y).toBeCloseTo(centre.y, 6);
      for (const place of rim) {
        const [distance] = Flatten.point(found.x, found.y).distanceTo(Flatten.point(place.x, place.y));
        expect(distance).toBeCloseTo(found.radius, 6);
      }
    }
  });

  it('is none through places on a line', () => {
    expect(circleThrough({ x: 0, y: 0 }, { x: 10, y: 5 }, { x: 40, y: 20 })).toBeNull();
    expect(circleThrough({ x: 1, y: 1 }, { x: 1, y: 1 }, { x: 4, y: 2 })).toBeNull();
  });
});
