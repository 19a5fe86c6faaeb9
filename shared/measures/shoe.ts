import type { Frame } from '../geometry/frame.ts';
import { degrees, type Point } from '../geometry/point.ts';
import { angleOf, type Real } from '../geometry/real.ts';
import { lateral } from './measure.ts';

/** What lies between the bearing plane and the ground, square to the bearing plane. A bare foot has none of it. */
function below({ x }: Point, { ground }: Frame): Real | null {
  if (ground === null || ground === 'level') return null;
  const { through, along } = ground;
  if (along.x.value === 0) return null;
  return x.minus(through.x).times(along.y).over(along.x).plus(through.y).negated();
}

/** What the foot wears, as the film shows it. */
// prettier-ignore
export const shoes = [
  lateral('shoe', 'shoe-thickness.toe', 'mm', {
    words: 'shoe under the toe',
    doc: 'From the bearing plane to the ground below the toe’s contact, square to the bearing plane. Of a bare foot there is none.',
    formula: '-Y of the ground line at X toe.ground',
  }, { needs: ['toe.ground'], plane: 'bearing', afterCut: 'unchanged', of: (p, frame) => below(p['toe.ground'], frame) }),

  lateral('shoe', 'shoe-thickness.heel', 'mm', {
    words: 'shoe under the heel',
    doc: 'From the bearing plane to the ground below the heel’s contact, square to the bearing plane. Of a bare foot there is none.',
    formula: '-Y of the ground line at X heel.ground',
  }, { needs: ['heel.ground'], plane: 'bearing', afterCut: 'unchanged', of: (p, frame) => below(p['heel.ground'], frame) }),

  lateral('shoe', 'shoe-wedge', 'deg', {
    words: 'wedge of the shoe',
    doc: 'Angle between the bearing plane and the ground: positive where the shoe raises the heel. By it the palmar angle of the shod foot is the larger.',
    formula: 'angle from X to the ground line, upwards towards the toe',
  }, {
    needs: [], plane: 'bearing', afterCut: 'unchanged',
    of: (_p, { ground }) => ground === null || ground === 'level' ? null : angleOf(ground.along.y, ground.along.x).times(degrees),
  }),
] as const;
