import { distance, midpoint } from '../geometry/point.ts';
import { solar } from './measure.ts';

/** Shape of the ground surface, solar view: lengths, widths and ratios. */
// prettier-ignore
export const solars = [
  solar('solar', 'sole-length', 'mm', {
    words: 'length of the foot', byHand: [20, 400],
    doc: 'Length of the ground surface from between the heels to the toe.',
    formula: 'X toe',
  }, { needs: ['toe'], of: (p) => p['toe'].x.plus(0) }),

  solar('solar', 'sole-width', 'mm', {
    words: 'width of the foot', byHand: [20, 300],
    doc: 'Width of the ground surface at its widest.',
    formula: 'distance wide.medial to wide.lateral',
  }, { needs: ['wide.medial', 'wide.lateral'], of: (p) => distance(p['wide.medial'], p['wide.lateral']) }),

  solar('solar', 'heel-width', 'mm', {
    words: 'width of the heels', byHand: [3, 200],
    doc: 'Distance between the rearmost bearing points of the two heels.',
    formula: 'distance heel.medial to heel.lateral',
  }, { needs: ['heel.medial', 'heel.lateral'], of: (p) => distance(p['heel.medial'], p['heel.lateral']) }),

  solar('solar', 'frog-width', 'mm', {
    words: 'width of the frog', byHand: [2, 150],
    doc: 'Width of the frog at its widest.',
    formula: 'distance frog.medial to frog.lateral',
  }, { needs: ['frog.medial', 'frog.lateral'], of: (p) => distance(p['frog.medial'], p['frog.lateral']) }),

  solar('solar', 'frog-length', 'mm', {
    words: 'length of the frog', byHand: [5, 250],
    doc: 'Length of the frog from its point to the middle of its back.',
    formula: 'distance frog.apex to frog.base',
  }, { needs: ['frog.apex', 'frog.base'], of: (p) => distance(p['frog.apex'], p['frog.base']) }),

  solar('solar', 'width-share', '%', {
    words: 'width for the length', byHand: [20, 250],
    doc: 'Width of the foot in per cent of its length.',
    formula: '100 × sole-width / sole-length',
  }, { needs: ['wide.medial', 'wide.lateral', 'toe'], of: (p) => distance(p['wide.medial'], p['wide.lateral']).over(p['toe'].x).times(100) }),

  solar('solar', 'heel-frog-share', '%', {
    words: 'heels for the frog', byHand: [20, 1000],
    doc: 'Width of the heels in per cent of the width of the frog.',
    formula: '100 × heel-width / frog-width',
  }, {
    needs: ['heel.medial', 'heel.lateral', 'frog.medial', 'frog.lateral'],
    of: (p) => distance(p['heel.medial'], p['heel.lateral']).over(distance(p['frog.medial'], p['frog.lateral'])).times(100),
  }),

  solar('solar', 'toe-split', '%', {
    words: 'toe ahead of the widest point', byHand: [1, 99],
    doc: 'How much of the length lies ahead of the widest part of the foot.',
    formula: '100 × (X toe - mean X of wide.medial and wide.lateral) / sole-length',
  }, {
    needs: ['wide.medial', 'wide.lateral', 'toe'],
    of: (p) => p['toe'].x.minus(midpoint(p['wide.medial'], p['wide.lateral']).x).over(p['toe'].x).times(100),
  }),

  solar('solar', 'frog-place', '%', {
    words: 'place of the frog’s point', byHand: [10, 100],
    doc: 'How far forward the point of the frog lies, in per cent of the length from between the heels.',
    formula: '100 × X frog.apex / sole-length',
  }, { needs: ['frog.apex', 'toe'], of: (p) => p['frog.apex'].x.over(p['toe'].x).times(100) }),
] as const;
