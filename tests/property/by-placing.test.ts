import fc from 'fast-check';
import { expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { footAxes, lineOf, placedIn } from '../../shared/geometry/foot-axes.ts';
import type { FootInput } from '../../shared/geometry/foot-input.ts';
import { footFrame } from '../../shared/geometry/frame.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import { measuresIn } from '../../shared/measures/registry.ts';
import { changesByPlacing, takeMeasures } from '../../shared/measures/take.ts';
import { anyFoot, toNotation } from './random-foot.ts';

/**
 * How every measure changes with every placing, against the placings themselves moved a little on the picture: to either side
 * (central differences), along the axes of the foot, whichever way it looks and however its picture is tilted.
 */
const STEP = 0.01;

function moved(input: FootInput, name: string, by: XY): FootInput {
  return {
    ...input,
    landmarks: input.landmarks.map((one) => (one.name === name ? { ...one, x: one.x + by.x, y: one.y + by.y } : one)),
  };
}

it('a measure changes with a placing along the axes of the foot as it is said to', () => {
  let compared = 0;
  fc.assert(
    fc.property(anyFoot(), (foot) => {
      const [film] = inspect(toNotation(foot)).study.films;
      const input = film?.readings[0]?.input;
      const { frame, scale } = footFrame(() => input as FootInput);
      if (!input || !frame) return;
      const perPx = scale ?? 1;
      const axes = footAxes(
        input.view,
        placedIn(new Map(input.landmarks.map((one) => [one.name, one]))),
        lineOf(input),
      );
      const measured = (name: string, along: XY, px: number) =>
        takeMeasures(() => moved(input, name, { x: along.x * px, y: along.y * px })).values;
      for (const { name } of input.landmarks) {
        const [right, left] = [measured(name, axes.u, STEP), measured(name, axes.u, -STEP)];
        const [up, down] = [measured(name, axes.v, STEP), measured(name, axes.v, -STEP)];
        for (const measure of measuresIn(input.view)) {
          const changes = changesByPlacing(frame, measure);
          const values = [right, left, up, down].map((all) => all.get(measure.name)?.value);
          const [atRight, atLeft, above, below] = values;
          if (!changes || atRight === undefined || atLeft === undefined || above === undefined || below === undefined)
            continue;
          const found = { x: (atRight - atLeft) / (2 * STEP * perPx), y: (above - below) / (2 * STEP * perPx) };
          const said = changes.get(name) ?? { x: 0, y: 0 };
          const size = Math.hypot(found.x, found.y);
          // An angle that steps over 180 degrees.
          if (size > 50) continue;
          expect(Math.hypot(found.x - said.x, found.y - said.y), `${measure.name} by ${name}`).toBeLessThan(
            1e-4 + 2e-3 * size,
          );
          if (size > 1e-6) compared++;
        }
      }
    }),
    { numRuns: 25 },
  );
  expect(compared).toBeGreaterThan(500);
}, 120_000);
