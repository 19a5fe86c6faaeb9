import { slope, tilt } from '../geometry/point.ts';
import { front } from './measure.ts';

/** Balance from side to side, front (dorsopalmar) view. */
// prettier-ignore
export const fronts = [
  front('front', 'p3-tilt', 'deg', {
    words: 'tilt of the pedal bone',
    doc: 'Angle of the pedal bone’s solar margin to the ground, seen from in front: positive where the outer side is higher.',
    formula: 'atan2(Y p3.lateral - Y p3.medial, X p3.lateral - X p3.medial)',
  }, { needs: ['p3.medial', 'p3.lateral'], plane: 'ground', of: (p) => tilt(p['p3.medial'], p['p3.lateral']) }),

  front('front', 'joint-tilt', 'deg', {
    words: 'tilt of the coffin joint',
    doc: 'Angle of the coffin joint space to the ground: positive where the outer side is higher.',
    formula: 'atan2(Y joint.lateral - Y joint.medial, X joint.lateral - X joint.medial)',
  }, { needs: ['joint.medial', 'joint.lateral'], plane: 'ground', of: (p) => tilt(p['joint.medial'], p['joint.lateral']) }),

  front('front', 'coronet-tilt', 'deg', {
    words: 'tilt of the coronet', byHand: 'signed',
    doc: 'Angle of the hairline to the bearing plane, seen from in front: positive where the outer side is higher.',
    formula: 'atan2(Y coronet.lateral - Y coronet.medial, X coronet.lateral - X coronet.medial)',
  }, { needs: ['coronet.medial', 'coronet.lateral'], plane: 'bearing', of: (p) => tilt(p['coronet.medial'], p['coronet.lateral']) }),

  front('front', 'wall-angle.medial', 'deg', {
    words: 'inner wall angle', byHand: [20, 150],
    doc: 'Angle of the inner wall to the bearing plane, measured inside the foot.',
    formula: 'atan2(Y coronet.medial - Y wall.medial, X coronet.medial - X wall.medial)',
  }, {
    needs: ['coronet.medial', 'wall.medial'], plane: 'bearing',
    of: (p) => tilt(p['wall.medial'], p['coronet.medial']),
  }),

  front('front', 'wall-angle.lateral', 'deg', {
    words: 'outer wall angle', byHand: [20, 150],
    doc: 'Angle of the outer wall to the bearing plane, measured inside the foot.',
    formula: 'atan2(Y coronet.lateral - Y wall.lateral, X wall.lateral - X coronet.lateral)',
  }, {
    needs: ['coronet.lateral', 'wall.lateral'], plane: 'bearing',
    of: (p) => slope(p['wall.lateral'], p['coronet.lateral']),
  }),

  front('front', 'sole-depth.medial', 'mm', {
    words: 'bone above the ground, inner side',
    doc: 'Height of the pedal bone’s solar margin above the bearing plane on the inner side.',
    formula: 'Y p3.medial',
  }, { needs: ['p3.medial'], plane: 'bearing', of: (p) => p['p3.medial'].y.plus(0) }),

  front('front', 'sole-depth.lateral', 'mm', {
    words: 'bone above the ground, outer side',
    doc: 'Height of the pedal bone’s solar margin above the bearing plane on the outer side.',
    formula: 'Y p3.lateral',
  }, { needs: ['p3.lateral'], plane: 'bearing', of: (p) => p['p3.lateral'].y.plus(0) }),

  front('front', 'ground-width', 'mm', {
    words: 'width at the ground', byHand: [20, 300],
    doc: 'Width of the foot where the wall meets the ground.',
    formula: 'X wall.lateral - X wall.medial',
  }, { needs: ['wall.medial', 'wall.lateral'], plane: 'bearing', of: (p) => p['wall.lateral'].x.minus(p['wall.medial'].x) }),
] as const;
