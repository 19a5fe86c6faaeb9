import type { LandmarkName } from '../notation/landmarks.ts';
import { clockwise, distance, midpoint, reach, unit, vector, type Point } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import { lateral } from './measure.ts';

/** Along the outward normal of the bone's dorsal face, from one of its places to the line through two points of the wall. */
function toWall(
  place: 'upper' | 'middle' | 'lower',
  upper: Point,
  lower: Point,
  wall: readonly [Point, Point],
): Real | null {
  const face = vector(lower, upper);
  if (face.x.value === 0 && face.y.value === 0) return null;
  const from = place === 'upper' ? upper : place === 'lower' ? lower : midpoint(upper, lower);
  return reach(from, clockwise(unit(face)), wall[0], wall[1]);
}

const face = ['p3.dorsal.upper', 'p3.dorsal.lower'] as const satisfies readonly LandmarkName[];

const where = {
  upper: 'at the upper point of the bone’s dorsal face',
  middle: 'at its middle',
  lower: 'at its lower point',
} as const;

function hornLamellar<const P extends keyof typeof where>(place: P) {
  return lateral(
    'wall',
    `horn-lamellar.${place}` as const,
    'mm',
    {
      words: `horn and lamellae, ${place}`,
      doc: `Outer wall to bone (horn and lamellae together) ${where[place]}. Never compared with lamellar-zone.`,
      formula: `from p3.dorsal (${place}) along the outward normal of the dorsal face to the line wall.upper to wall.lower`,
    },
    {
      needs: [...face, 'wall.upper', 'wall.lower'],
      plane: 'none',
      afterCut: 'measured',
      of: (p) => toWall(place, p['p3.dorsal.upper'], p['p3.dorsal.lower'], [p['wall.upper'], p['wall.lower']]),
    },
  );
}

function lamellarZone<const P extends keyof typeof where>(place: P) {
  return lateral(
    'wall',
    `lamellar-zone.${place}` as const,
    'mm',
    {
      words: `lamellar zone, ${place}`,
      doc: `Inner edge of the horn to bone (the lamellar zone alone) ${where[place]}.`,
      formula: `from p3.dorsal (${place}) along the outward normal of the dorsal face to the line wall.inner.upper to wall.inner.lower`,
    },
    {
      needs: [...face, 'wall.inner.upper', 'wall.inner.lower'],
      plane: 'none',
      afterCut: 'measured',
      of: (p) =>
        toWall(place, p['p3.dorsal.upper'], p['p3.dorsal.lower'], [p['wall.inner.upper'], p['wall.inner.lower']]),
    },
  );
}

/** Thickness of wall and lamellae, and the lengths of wall, bone and bearing surface. */
// prettier-ignore
export const walls = [
  hornLamellar('upper'), hornLamellar('middle'), hornLamellar('lower'),
  lamellarZone('upper'), lamellarZone('middle'), lamellarZone('lower'),

  lateral('wall', 'cortex-length', 'mm', {
    words: 'palmar cortex of the bone',
    doc: 'Length of the pedal bone from its tip to where it meets the navicular bone: a yardstick that magnification does not spoil.',
    formula: 'distance p3.tip to p3.navicular',
  }, { needs: ['p3.tip', 'p3.navicular'], plane: 'none', afterCut: 'measured', of: (p) => distance(p['p3.tip'], p['p3.navicular']) }),

  lateral('wall', 'toe-length', 'mm', {
    words: 'toe length', byHand: [10, 400],
    doc: 'Length of the dorsal wall from the hairline to the ground.',
    formula: 'distance coronet.dorsal to toe.ground',
  }, { needs: ['coronet.dorsal', 'toe.ground'], plane: 'none', afterCut: 'measured', of: (p) => distance(p['coronet.dorsal'], p['toe.ground']) }),

  lateral('wall', 'bearing-length', 'mm', {
    words: 'bearing length', byHand: [20, 400],
    doc: 'Length of the wall’s contact with the ground, heel to toe.',
    formula: 'X toe.ground - X heel.ground',
  }, { needs: ['toe.ground', 'heel.ground'], plane: 'bearing', afterCut: 'measured', of: (p) => p['toe.ground'].x.minus(p['heel.ground'].x) }),

  lateral('wall', 'breakover-reach', 'mm', {
    words: 'breakover ahead of the tip',
    doc: 'How far the point over which the foot rolls lies ahead of the tip of the bone.',
    formula: 'X breakover - X p3.tip',
  }, { needs: ['breakover', 'p3.tip'], plane: 'bearing', afterCut: 'measured', of: (p) => p['breakover'].x.minus(p['p3.tip'].x) }),

  lateral('wall', 'grown-out', 'mm', {
    words: 'new wall grown out', byHand: [0, 400],
    doc: 'How far the new wall has come down from the hairline, to where its direction changes.',
    formula: 'distance coronet.dorsal to wall.turn',
  }, { needs: ['coronet.dorsal', 'wall.turn'], plane: 'none', afterCut: 'measured', of: (p) => distance(p['coronet.dorsal'], p['wall.turn']) }),
] as const;

export { toWall };
