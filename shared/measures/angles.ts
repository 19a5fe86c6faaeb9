import { slope, tilt } from '../geometry/point.ts';
import { lateral, turn } from './measure.ts';

/** Angles to a plane and between lines, lateral view, degrees. */
// prettier-ignore
export const angles = [
  lateral('angles', 'palmar-angle', 'deg', {
    words: 'palmar angle', alias: 'plantar-angle',
    doc: 'Angle of the pedal bone’s solar margin to the ground: positive where the wing is higher than the tip.',
    formula: 'slope(p3.tip, p3.wing)',
  }, { needs: ['p3.tip', 'p3.wing'], plane: 'ground', afterCut: 'measured', of: (p) => slope(p['p3.tip'], p['p3.wing']) }),

  lateral('angles', 'palmar-angle.bearing', 'deg', {
    words: 'palmar angle to the bearing plane', alias: 'plantar-angle.bearing',
    doc: 'Angle of the pedal bone’s solar margin to the plane between hoof and shoe: what the palmar angle would be if the foot stood bare. Of a bare foot it is the palmar angle itself, and is not told twice.',
    formula: 'slope(p3.tip, p3.wing)',
  }, {
    needs: ['p3.tip', 'p3.wing'], plane: 'bearing', afterCut: 'measured',
    of: (p, { ground }) => ground === 'level' ? null : slope(p['p3.tip'], p['p3.wing']),
  }),

  lateral('angles', 'wall-angle', 'deg', {
    words: 'wall angle', byHand: [10, 110],
    doc: 'Angle of the dorsal hoof wall to the bearing plane, on its straight part.',
    formula: 'slope(wall.lower, wall.upper)',
  }, { needs: ['wall.lower', 'wall.upper'], plane: 'bearing', afterCut: 'measured', of: (p) => slope(p['wall.lower'], p['wall.upper']) }),

  lateral('angles', 'bone-angle', 'deg', {
    words: 'bone angle',
    doc: 'Angle of the pedal bone’s dorsal face to the ground.',
    formula: 'slope(p3.dorsal.lower, p3.dorsal.upper)',
  }, { needs: ['p3.dorsal.lower', 'p3.dorsal.upper'], plane: 'ground', afterCut: 'measured', of: (p) => slope(p['p3.dorsal.lower'], p['p3.dorsal.upper']) }),

  lateral('angles', 'heel-angle', 'deg', {
    words: 'heel angle', byHand: [0, 120],
    doc: 'Angle of the heel wall to the bearing plane.',
    formula: 'slope(heel.ground, heel.upper)',
  }, { 
    needs: ['heel.ground', 'heel.upper'], plane: 'bearing',
    of: (p) => slope(p['heel.ground'], p['heel.upper']),
    // The heel wall itself is not bent by a cut: its angle falls by the turn, wherever the cut now ends it.
    afterCut: (p, turned) => slope(p['heel.ground'], p['heel.upper']).minus(turned),
  }),

  lateral('angles', 'coronet-angle', 'deg', {
    words: 'coronet angle', byHand: 'signed',
    doc: 'How steeply the hairline falls from toe to heel.',
    formula: 'atan2(Y coronet.dorsal - Y coronet.heel, X coronet.dorsal - X coronet.heel)',
  }, {
    needs: ['coronet.dorsal', 'coronet.heel'], plane: 'bearing', afterCut: 'measured',
    of: (p) => tilt(p['coronet.heel'], p['coronet.dorsal']),
  }),

  lateral('angles', 'middle-angle', 'deg', {
    words: 'short pastern angle',
    doc: 'Angle of the axis of P2, the short pastern bone, to the ground.',
    formula: 'slope(coffin.centre, pastern.centre)',
  }, { needs: ['coffin.centre', 'pastern.centre'], plane: 'ground', afterCut: 'measured', of: (p) => slope(p['coffin.centre'], p['pastern.centre']) }),

  lateral('angles', 'axis-angle', 'deg', {
    words: 'pastern axis',
    doc: 'Angle of the pastern axis to the ground, from the coffin joint to the fetlock joint.',
    formula: 'slope(coffin.centre, fetlock.centre)',
  }, { needs: ['coffin.centre', 'fetlock.centre'], plane: 'ground', afterCut: 'measured', of: (p) => slope(p['coffin.centre'], p['fetlock.centre']) }),

  lateral('angles', 'capsular-rotation', 'deg', {
    words: 'capsular rotation',
    doc: 'How far bone and wall diverge: positive where they part downwards.',
    formula: 'bone-angle - wall-angle',
  }, {
    needs: ['p3.dorsal.lower', 'p3.dorsal.upper', 'wall.lower', 'wall.upper'], plane: 'none', afterCut: 'measured',
    of: (p) => turn(slope(p['p3.dorsal.lower'], p['p3.dorsal.upper']), slope(p['wall.lower'], p['wall.upper'])),
  }),

  lateral('angles', 'phalangeal-rotation', 'deg', {
    words: 'phalangeal rotation',
    doc: 'Pedal bone against the axis of the short pastern bone: flexion at the coffin joint.',
    formula: 'bone-angle - middle-angle',
  }, {
    needs: ['p3.dorsal.lower', 'p3.dorsal.upper', 'coffin.centre', 'pastern.centre'], plane: 'none', afterCut: 'measured',
    of: (p) => turn(slope(p['p3.dorsal.lower'], p['p3.dorsal.upper']), slope(p['coffin.centre'], p['pastern.centre'])),
  }),

  lateral('angles', 'hoof-pastern-deviation', 'deg', {
    words: 'wall against pastern',
    doc: 'Wall angle less the angle of the pastern axis. Without the fetlock joint the axis of P2 stands in (axis: short).',
    formula: 'wall-angle - axis-angle; without fetlock.centre wall-angle - middle-angle',
  }, {
    needs: ['wall.lower', 'wall.upper', 'coffin.centre', 'fetlock.centre'], plane: 'none', afterCut: 'measured',
    of: (p) => turn(slope(p['wall.lower'], p['wall.upper']), slope(p['coffin.centre'], p['fetlock.centre'])),
  }, {
    needs: ['wall.lower', 'wall.upper', 'coffin.centre', 'pastern.centre'],
    of: (p) => turn(slope(p['wall.lower'], p['wall.upper']), slope(p['coffin.centre'], p['pastern.centre'])),
  }),

  lateral('angles', 'toe-heel-difference', 'deg', {
    words: 'toe less heel angle', byHand: 'signed',
    doc: 'Wall angle less heel angle: large where the heels are underrun.',
    formula: 'wall-angle - heel-angle',
  }, {
    needs: ['wall.lower', 'wall.upper', 'heel.ground', 'heel.upper'], plane: 'none',
    of: (p) => turn(slope(p['wall.lower'], p['wall.upper']), slope(p['heel.ground'], p['heel.upper'])),
    afterCut: (p, turned) =>
      slope(p['wall.lower'], p['wall.upper']).minus(turned)
        .minus(slope(p['heel.ground'], p['heel.upper']).minus(turned)),
  }),
] as const;
