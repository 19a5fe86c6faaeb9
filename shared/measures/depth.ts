import type { Frame } from '../geometry/frame.ts';
import { belowWhenTurned, clockwise, dot, negated, unit, vector, type Point } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import { lateral } from './measure.ts';

/** The fall of the hairline at which sinking is measured, degrees. What matters is that it is always the same. */
const LEVEL = 20;

/** mm below the ground where a point of the sole still counts as above it: twice the usual error of placing. */
const UNDER = 1;

/**
 * How much sole lies under a point of the bone. On a shoe whose bearing plane is not known it is told too, as nobody is to miss a
 * thin sole for a line that is not placed; but not to a point below the ground, which is none of the sole.
 */
function soleBelow(bone: Point, sole: Point, { isOnBearing }: Frame): Real | null {
  return isOnBearing || sole.y.value > -UNDER ? bone.y.minus(sole.y) : null;
}

/** Heights above the bearing plane: how deep the bone lies in the capsule, how thick the sole is. */
// prettier-ignore
export const depths = [
  lateral('depth', 'founder-distance', 'mm', {
    words: 'founder distance',
    doc: 'How far the extensor process lies below the top of the firm dorsal wall (the wall convention of Cripps and Eustace 1999). Never compared with coronet-extensor.',
    formula: 'Y wall.top - Y p3.extensor',
  }, { needs: ['wall.top', 'p3.extensor'], plane: 'bearing', afterCut: 'measured', of: (p) => p['wall.top'].y.minus(p['p3.extensor'].y) }),

  lateral('depth', 'coronet-extensor', 'mm', {
    words: 'coronet to extensor process',
    doc: 'How far the extensor process lies below the hairline: the hairline convention, about 10 mm more than founder-distance.',
    formula: 'Y coronet.dorsal - Y p3.extensor',
  }, { needs: ['coronet.dorsal', 'p3.extensor'], plane: 'bearing', afterCut: 'measured', of: (p) => p['coronet.dorsal'].y.minus(p['p3.extensor'].y) }),

  lateral('depth', 'founder-distance.level', 'mm', {
    words: 'founder distance in the capsule',
    doc: 'The founder distance as it would be with the hairline falling at 20°: it does not change when the foot merely stands otherwise, or the bone only turns about its extensor process. What sinking is judged by.',
    formula: 'with v = wall.top - p3.extensor and r = 20° - coronet-angle: v.x × sin r + v.y × cos r',
  }, {
    needs: ['wall.top', 'p3.extensor', 'coronet.dorsal', 'coronet.heel'], plane: 'none', afterCut: 'measured',
    of: (p) => belowWhenTurned(p['wall.top'], p['p3.extensor'], vector(p['coronet.heel'], p['coronet.dorsal']), LEVEL),
  }),

  lateral('depth', 'coronet-extensor.level', 'mm', {
    words: 'coronet to extensor process in the capsule',
    doc: 'Coronet to extensor process as it would be with the hairline falling at 20°: the hairline convention of the same. The two are never mixed.',
    formula: 'with v = coronet.dorsal - p3.extensor and r = 20° - coronet-angle: v.x × sin r + v.y × cos r',
  }, {
    needs: ['coronet.dorsal', 'p3.extensor', 'coronet.heel'], plane: 'none', afterCut: 'measured',
    of: (p) => belowWhenTurned(p['coronet.dorsal'], p['p3.extensor'], vector(p['coronet.heel'], p['coronet.dorsal']), LEVEL),
  }),

  lateral('depth', 'sole-depth.tip', 'mm', {
    words: 'sole depth at the tip',
    doc: 'Sole between the tip of the pedal bone and the ground side of the sole below it.',
    formula: 'Y p3.tip - Y sole.tip',
  }, { needs: ['p3.tip', 'sole.tip'], plane: 'either', afterCut: 'measured', of: (p, frame) => soleBelow(p['p3.tip'], p['sole.tip'], frame) }),

  lateral('depth', 'sole-depth.wing', 'mm', {
    words: 'sole depth at the wing',
    doc: 'Sole between the wing of the pedal bone and the ground side of the sole below it.',
    formula: 'Y p3.wing - Y sole.wing',
  }, { needs: ['p3.wing', 'sole.wing'], plane: 'either', afterCut: 'measured', of: (p, frame) => soleBelow(p['p3.wing'], p['sole.wing'], frame) }),

  lateral('depth', 'cup.tip', 'mm', {
    words: 'air under the sole',
    doc: 'How far the sole below the tip of the bone stands off the bearing plane.',
    formula: 'Y sole.tip',
  }, { needs: ['sole.tip'], plane: 'bearing', afterCut: 'measured', of: (p) => p['sole.tip'].y.plus(0) }),

  lateral('depth', 'heel-height', 'mm', {
    words: 'heel height', byHand: [0, 200],
    doc: 'Height of the hairline at the heel above the heel’s ground contact.',
    formula: 'Y coronet.heel - Y heel.ground',
  }, { needs: ['coronet.heel', 'heel.ground'], plane: 'bearing', afterCut: 'measured', of: (p) => p['coronet.heel'].y.minus(p['heel.ground'].y) }),

  lateral('depth', 'heel-surplus', 'mm', {
    words: 'heel beyond the sole plane', byHand: 'signed',
    doc: 'Heel that stands beyond the live sole plane: what could come off before live sole is reached.',
    formula: 'Y sole.heel - Y heel.ground',
  }, { needs: ['sole.heel', 'heel.ground'], plane: 'bearing', afterCut: 'measured', of: (p) => p['sole.heel'].y.minus(p['heel.ground'].y) }),

  lateral('depth', 'coronet-navicular', 'mm', {
    words: 'navicular bone below the hairline',
    doc: 'Distance of the navicular bone’s upper border below the hairline from toe to heel; negative where it lies above.',
    formula: 'distance of navicular.upper below the line coronet.dorsal to coronet.heel',
  }, {
    needs: ['coronet.dorsal', 'coronet.heel', 'navicular.upper'], plane: 'none', afterCut: 'measured',
    of: (p) => {
      const hairline = vector(p['coronet.heel'], p['coronet.dorsal']);
      if (hairline.x.value === 0 && hairline.y.value === 0) return null;
      const across = negated(clockwise(unit(hairline)));
      const up = across.y.value < 0 ? negated(across) : across;
      return dot(vector(p['navicular.upper'], p['coronet.heel']), up);
    },
  }),
] as const;
