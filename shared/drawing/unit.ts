import { distance } from '../geometry/vector.ts';
import type { LandmarkPositions } from './places.ts';

const TINY = 1e-6;

/** One millimetre of an ordinary foot, from whichever distances are there: the middle one is believed. */
const USUAL: readonly (readonly [string, string, number])[] = [
  ['p3.tip', 'p3.wing', 68],
  ['coronet.dorsal', 'toe.ground', 85],
  ['p3.tip', 'p3.extensor', 55],
  ['p3.tip', 'p3.navicular', 60],
  ['coffin.centre', 'pastern.centre', 45],
  ['pastern.centre', 'fetlock.centre', 78],
  ['toe.ground', 'heel.ground', 108],
  ['coronet.dorsal', 'coronet.heel', 80],
];

export function unitOf(places: LandmarkPositions, scale: number | null, extent: number): number {
  const found: number[] = [];
  for (const [a, b, usual] of USUAL) {
    const from = places.get(a);
    const to = places.get(b);
    if (from && to && distance(from, to) > TINY) found.push(distance(from, to) / usual);
  }
  found.sort((a, b) => a - b);
  const middle = found[Math.floor((found.length - 1) / 2)];
  const guess = middle ?? (scale !== null && scale > 0 ? 1 / scale : extent / 200);
  // A scale typed wrongly by a thousand must not turn the lines into floods of ink.
  return Math.min(Math.max(guess, extent / 600), extent / 40);
}
