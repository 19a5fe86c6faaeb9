import type { XY } from '../../geometry/vector.ts';

/** The foot an empty plate shows faintly. It belongs to no horse: ordinary proportions, a tenth of a millimetre a unit. */
export const SAMPLE_FOOT: ReadonlyMap<string, XY> = new Map(
  (
    [
      ['p3.tip', 0, 18],
      ['p3.wing', -67, 24],
      ['p3.dorsal.lower', -8, 29],
      ['p3.dorsal.upper', -24, 48],
      ['p3.extensor', -33, 58.5],
      ['p3.navicular', -55, 39],
      ['coffin.centre', -50, 58],
      ['pastern.centre', -78, 93],
      ['fetlock.centre', -126, 154],
      ['navicular.upper', -72.5, 51],
      ['navicular.lower', -59.5, 36.5],
      ['wall.top', -14.5, 63],
      ['wall.upper', -9, 56.5],
      ['wall.lower', 17, 25.5],
      ['wall.inner.upper', -16.3, 50.4],
      ['wall.inner.lower', 9.7, 19.4],
      ['coronet.dorsal', -20, 69.5],
      ['coronet.heel', -106, 43],
      ['toe.ground', 38, 0],
      ['breakover', 37, 0],
      ['heel.ground', -80, 0],
      ['heel.upper', -103, 34],
      ['sole.tip', 0, 4.5],
      ['sole.wing', -64, 9],
      ['sole.heel', -77, 4],
    ] as const
  ).map(([name, x, y]): [string, XY] => [name, { x: 600 - x * 10, y: 1700 - y * 10 }]),
);

export const SAMPLE_GROUND: readonly [XY, XY] = [
  { x: 240, y: 1700 },
  { x: 1380, y: 1700 },
];
