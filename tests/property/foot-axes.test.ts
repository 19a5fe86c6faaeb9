import type { LandmarkName } from '../../shared/notation/landmarks.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { footAxes, intoFrame, ontoImage, placedIn, type FootAxes } from '../../shared/geometry/foot-axes.ts';
import { cross, dot, type XY } from '../../shared/geometry/vector.ts';
import { SAMPLE_FOOT } from '../../shared/drawing/foot/sample-foot.ts';
import { anyFoot, toNotation, type RandomFoot } from './random-foot.ts';

function filmOf(foot: RandomFoot) {
  const [film] = inspect(toNotation(foot)).study.films;
  const reading = film?.readings[0];
  if (!reading) return null;
  const { ground, landmarks } = reading.input;
  const places = new Map(landmarks.map(({ name, x, y }): [string, XY] => [name, { x, y }]));
  return { taking: reading.taking, places, axes: footAxes('lateral', placedIn(places), ground) };
}

function isRightAngled({ u, v, origin }: FootAxes): void {
  expect(dot(u, u)).toBeCloseTo(1, 9);
  expect(dot(u, v)).toBeCloseTo(0, 9);
  expect(Math.abs(cross(u, v))).toBeCloseTo(1, 9);
  expect(Number.isFinite(origin.x) && Number.isFinite(origin.y)).toBe(true);
}

describe('the frame that is drawn in and the frame that is measured in', () => {
  it('are one, whatever is placed', () => {
    let measured = 0;
    fc.assert(
      fc.property(anyFoot(), (foot) => {
        const film = filmOf(foot);
        if (!film) return;
        const { taking, places, axes } = film;
        isRightAngled(axes);
        expect(axes.lack).toBe(taking.lack);
        const { frame } = taking;
        if (!frame) return;
        measured++;
        const size = frame.scale?.value ?? 1;
        for (const [name, place] of places) {
          const point = frame.at(name as LandmarkName);
          // The measures have the middle between two wings under the name of the first.
          if (!point || (name === 'p3.wing' && places.has('p3.wing.other'))) continue;
          const { x, y } = intoFrame(axes, place);
          expect(x * size, name).toBeCloseTo(point.x.value, 6);
          expect(y * size, name).toBeCloseTo(point.y.value, 6);
        }
      }),
      { numRuns: 150 },
    );
    expect(measured).toBeGreaterThan(100);
  });

  it('is there for any handful of landmarks, and leads back onto the picture', () => {
    fc.assert(
      fc.property(
        fc.subarray([...SAMPLE_FOOT]),
        fc.option(fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 9 }))),
        (kept, tilt) => {
          const ground =
            tilt &&
            ([
              { x: 0, y: 1700 },
              { x: tilt[0], y: 1700 + tilt[1] },
            ] as const);
          const axes = footAxes('lateral', placedIn(new Map(kept)), ground);
          isRightAngled(axes);
          for (const [, place] of kept) {
            const back = ontoImage(axes, intoFrame(axes, place));
            expect(back.x).toBeCloseTo(place.x, 6);
            expect(back.y).toBeCloseTo(place.y, 6);
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});
