import { distance } from '../geometry/point.ts';
import { lateral } from './measure.ts';

/**
 * Lengths within one bone, or between the joints at both its ends. In a grown animal they stay from film to film, so that a
 * wrong scale or an oblique beam shows in them.
 */
// prettier-ignore
export const bones = [
  lateral('bone', 'p3-length', 'mm', {
    words: 'length of the pedal bone',
    doc: 'Length of the pedal bone from its tip to its wing. In a grown animal it stays from film to film.',
    formula: 'distance p3.tip to p3.wing',
  }, { needs: ['p3.tip', 'p3.wing'], plane: 'none', afterCut: 'measured', of: (p) => distance(p['p3.tip'], p['p3.wing']) }),

  lateral('bone', 'p3-back', 'mm', {
    words: 'extensor process to wing',
    doc: 'From the extensor process of the pedal bone to its wing: it stays even where the tip has lost bone.',
    formula: 'distance p3.extensor to p3.wing',
  }, { needs: ['p3.extensor', 'p3.wing'], plane: 'none', afterCut: 'measured', of: (p) => distance(p['p3.extensor'], p['p3.wing']) }),

  lateral('bone', 'p2-length', 'mm', {
    words: 'length of the short pastern bone',
    doc: 'Length of P2, the short pastern bone, between the centres of the joints at its ends.',
    formula: 'distance coffin.centre to pastern.centre',
  }, { needs: ['coffin.centre', 'pastern.centre'], plane: 'none', afterCut: 'measured', of: (p) => distance(p['coffin.centre'], p['pastern.centre']) }),
] as const;
