import { distance } from '../geometry/point.ts';
import { lateral } from './measure.ts';
import { toWall } from './wall.ts';

/** Ratios: free of scale and of magnification. */
// prettier-ignore
export const ratios = [
  lateral('ratios', 'horn-lamellar-share', '%', {
    words: 'horn and lamellae as a share of the bone’s length',
    doc: 'Outer wall to bone at the middle, in per cent of the palmar cortex of the bone.',
    formula: '100 × horn-lamellar.middle / cortex-length',
  }, {
    needs: ['p3.dorsal.upper', 'p3.dorsal.lower', 'wall.upper', 'wall.lower', 'p3.tip', 'p3.navicular'], plane: 'none', afterCut: 'measured',
    of: (p) =>
      toWall('middle', p['p3.dorsal.upper'], p['p3.dorsal.lower'], [p['wall.upper'], p['wall.lower']])
        ?.over(distance(p['p3.tip'], p['p3.navicular'])).times(100) ?? null,
  }),

  lateral('ratios', 'lamellar-share', '%', {
    words: 'lamellar zone as a share of the bone’s length',
    doc: 'Inner edge of the horn to bone at the middle, in per cent of the palmar cortex of the bone.',
    formula: '100 × lamellar-zone.middle / cortex-length',
  }, {
    needs: ['p3.dorsal.upper', 'p3.dorsal.lower', 'wall.inner.upper', 'wall.inner.lower', 'p3.tip', 'p3.navicular'], plane: 'none', afterCut: 'measured',
    of: (p) =>
      toWall('middle', p['p3.dorsal.upper'], p['p3.dorsal.lower'], [p['wall.inner.upper'], p['wall.inner.lower']])
        ?.over(distance(p['p3.tip'], p['p3.navicular'])).times(100) ?? null,
  }),

  lateral('ratios', 'toe-share', '%', {
    words: 'share of the bearing length ahead of the coffin joint',
    doc: 'How much of the bearing length lies ahead of the centre of the coffin joint.',
    formula: '100 × (X toe.ground - X coffin.centre) / bearing-length',
  }, {
    needs: ['toe.ground', 'heel.ground', 'coffin.centre'], plane: 'bearing', afterCut: 'measured',
    of: (p) => p['toe.ground'].x.minus(p['coffin.centre'].x).over(p['toe.ground'].x.minus(p['heel.ground'].x)).times(100),
  }),

  lateral('ratios', 'phalanx-ratio', '1', {
    words: 'long to short pastern bone',
    doc: 'Length of P1 to that of P2 between the joint centres: a check that the centres are placed well.',
    formula: 'distance(pastern.centre, fetlock.centre) / distance(coffin.centre, pastern.centre)',
  }, {
    needs: ['pastern.centre', 'fetlock.centre', 'coffin.centre'], plane: 'none', afterCut: 'measured',
    of: (p) => distance(p['pastern.centre'], p['fetlock.centre']).over(distance(p['coffin.centre'], p['pastern.centre'])),
  }),

  lateral('ratios', 'grown-out-share', '%', {
    words: 'share of the wall grown out',
    doc: 'How much of the dorsal wall is new wall.',
    formula: '100 × grown-out / toe-length',
  }, {
    needs: ['coronet.dorsal', 'wall.turn', 'toe.ground'], plane: 'none', afterCut: 'measured',
    of: (p) => distance(p['coronet.dorsal'], p['wall.turn']).over(distance(p['coronet.dorsal'], p['toe.ground'])).times(100),
  }),
] as const;
