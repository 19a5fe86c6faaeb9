import type { LandmarkName } from '../notation/landmarks.ts';

/**
 * How far landmarks lie from where a typical foot has them once it is laid over tip, wing and ground: one standard deviation along
 * the picture's sides, mm of a foot of typical size; of a point on a line across it, of one on the ground along it, of one on the sole
 * how deep. Measured on 3,000 drawn feet whose tip, wing and ground were placed by a hand of 0.5 mm: half of them feet of
 * `npm run bench:placing`, sound and rotated ones of about a cob's size, half from a donkey's to a heavy horse's, flat, clubbed, long in the toe
 * and rotated by up to 22 degrees (tests/property/random-drawn-foot.ts). On the first they lie about half as far off as on all,
 * on the second a third further. Where the wall was found, what lies about it comes nearer than is said here.
 */
const measured: Readonly<Partial<Record<LandmarkName, number>>> = {
  'p3.extensor': 3.2,
  'p3.dorsal.upper': 2.6,
  'p3.dorsal.lower': 0.8,
  'p3.navicular': 3.2,
  'coffin.centre': 3.2,
  'pastern.centre': 6.4,
  'fetlock.centre': 11,
  'navicular.upper': 3.6,
  'navicular.lower': 3.1,
  'wall.upper': 10,
  'wall.lower': 12,
  'wall.top': 10,
  'wall.inner.upper': 6.9,
  'wall.inner.lower': 4.5,
  'coronet.dorsal': 11,
  'coronet.heel': 20,
  'toe.ground': 17,
  'heel.ground': 20,
  'heel.upper': 20,
  'sole.tip': 1.9,
  'sole.wing': 12,
};

/** Of one that has not been measured: as of those that lie furthest off. */
const UNMEASURED = 20;

/** One standard deviation, mm of a foot of typical size. */
export function typicalSpread(name: LandmarkName): number {
  return measured[name] ?? UNMEASURED;
}
