import { distal } from './distal.ts';
import { joint } from './joints.ts';
import { facing, leaning, plus, times, type Point } from './plane.ts';
import type { FootParameters } from './parameters.ts';
import { closed, open } from './spline.ts';

export interface Bones {
  landmarks: Record<
    | 'p3.tip'
    | 'p3.wing'
    | 'p3.extensor'
    | 'p3.dorsal.upper'
    | 'p3.dorsal.lower'
    | 'p3.navicular'
    | 'coffin.centre'
    | 'pastern.centre'
    | 'fetlock.centre'
    | 'navicular.upper'
    | 'navicular.lower',
    Point
  >;
  outlines: Record<'p3' | 'p3Body' | 'p2' | 'p1' | 'cannon' | 'navicular' | 'sesamoid', Point[]>;
  /** Hollows that let more through: marrow and vessel canals. */
  hollows: Record<'p1Marrow' | 'cannonMarrow' | 'p2Core' | 'solarCanal', Point[]>;
  /** Dense lines: the bone plates under the joints and the solar cortex. */
  plates: Record<
    | 'p3Joint'
    | 'p3Sole'
    | 'p3Dorsal'
    | 'p2Joint'
    | 'p2Condyle'
    | 'p1Joint'
    | 'p1Condyle'
    | 'cannonCondyle'
    | 'navicularFlexor',
    Point[]
  >;
}

/** Places points given along and across (toe side positive) a long bone's axis. */
const onAxis = (origin: Point, slope: number, size: number) => {
  const along = leaning(slope);
  const across = facing(slope);
  return (u: number, v: number): Point => plus(origin, plus(times(along, u * size), times(across, v * size)));
};

type Placing = (u: number, v: number) => Point;

/** Part of a circle about a joint centre at (centre, 0), from one angle off the distal direction to another. */
const rim = (place: Placing, centre: number, radius: number, from: number, to: number, count: number): Point[] =>
  Array.from({ length: count }, (_, i) => {
    const a = ((from + ((to - from) * i) / (count - 1)) * Math.PI) / 180;
    return place(centre - radius * Math.cos(a), radius * Math.sin(a));
  });

const points = (place: Placing, list: readonly (readonly [number, number])[]): Point[] =>
  list.map(([u, v]) => place(u, v));

/** The bones from P3 to the lower end of the cannon bone, in the foot frame (tip of P3 at x = 0). */
export function bones(p: FootParameters): Bones {
  const p3 = distal(p);
  const coffin = p3.centre;

  const m = onAxis(coffin, p.middleAngle, p.size);
  const l2 = p.p2Length;
  const p2 = closed([
    ...rim(m, 0, joint.coffin, -104, 104, 13),
    ...points(m, [
      [9, 13.6],
      [17, 13.5],
      [25, 15],
      [l2 - 15, 16.6],
      [l2 - 12, 16.6],
      [l2 - 10.5, 14],
    ]),
    ...rim(m, l2, joint.pasternSocket, 43, -46, 9),
    ...points(m, [
      [l2 - 9.8, -14],
      [l2 - 12.2, -17.4],
      [l2 - 15, -18.8],
      [l2 - 20, -17],
      [17, -14.6],
      [9, -13.9],
    ]),
  ]);
  const pastern = m(l2, 0);

  const q = onAxis(pastern, p.proximalAngle, p.size);
  const l1 = p.p1Length;
  const p1 = closed([
    ...rim(q, 0, joint.pastern, -108, 108, 12),
    ...points(q, [
      [10, 12.7],
      [22, 12.7],
      [34, 13.9],
      [l1 - 31, 16.2],
      [l1 - 24, 18.6],
      [l1 - 20.4, 19],
      [l1 - 18.2, 16.8],
    ]),
    ...rim(q, l1, joint.fetlockSocket, 37, -41, 9),
    ...points(q, [
      [l1 - 16.8, -18.6],
      [l1 - 20.6, -21.2],
      [l1 - 27, -20.6],
      [l1 - 37, -16.8],
      [25, -13.6],
      [10, -13],
    ]),
  ]);
  const fetlock = q(l1, 0);

  const f = onAxis(fetlock, p.cannonAngle, p.size);
  const cannon = closed([
    ...rim(f, 0, joint.fetlock, -98, 98, 13),
    ...points(f, [
      [12, 19.2],
      [24, 16.6],
      [42, 15],
      [75, 14.6],
      [110, 14.6],
      [110, -14.4],
      [75, -14.2],
      [42, -14.6],
      [24, -16.8],
      [12, -19],
    ]),
  ]);

  // The sesamoids follow P1, to which their ligaments tie them.
  const ring = (radius: number, degrees: number): Point => rim(q, l1, radius, -degrees, -degrees - 1, 2)[0] ?? fetlock;
  const sesamoid = closed([
    ring(21.9, 82),
    ring(21.7, 98),
    ring(21.7, 114),
    ring(22.5, 127),
    ring(26, 136),
    ring(31.5, 130),
    ring(35.8, 117),
    ring(37.4, 103),
    ring(35.8, 90),
    ring(30.4, 80),
    ring(25, 77.5),
  ]);

  return {
    landmarks: {
      ...p3.landmarks,
      'coffin.centre': coffin,
      'pastern.centre': pastern,
      'fetlock.centre': fetlock,
    },
    outlines: { p3: p3.p3, p3Body: p3.p3Body, p2, p1, cannon, navicular: p3.navicular, sesamoid },
    hollows: {
      solarCanal: p3.solarCanal,
      p2Core: closed(
        points(m, [
          [3, 6],
          [15, 8.5],
          [26, 9],
          [27, -9],
          [15, -9.5],
          [3, -7],
        ]),
      ),
      p1Marrow: closed(
        points(q, [
          [8, 5],
          [24, 8],
          [40, 11],
          [l1 - 28, 10],
          [l1 - 28, -11],
          [40, -12],
          [24, -8.5],
          [8, -5.5],
        ]),
      ),
      cannonMarrow: closed(
        points(f, [
          [22, 8],
          [44, 10.5],
          [75, 10.5],
          [130, 10.5],
          [130, -10],
          [75, -10],
          [44, -10],
          [22, -8],
        ]),
      ),
    },
    plates: {
      p3Joint: p3.p3Joint,
      p3Sole: p3.p3Sole,
      p3Dorsal: p3.p3Dorsal,
      navicularFlexor: p3.navicularFlexor,
      p2Joint: open(rim(m, l2, joint.pasternSocket + 0.9, 38, -41, 9)),
      p2Condyle: open(rim(m, 0, joint.coffin - 0.8, -88, 92, 13)),
      p1Joint: open(rim(q, l1, joint.fetlockSocket + 1, 32, -36, 9)),
      p1Condyle: open(rim(q, 0, joint.pastern - 0.8, -90, 90, 12)),
      cannonCondyle: open(rim(f, 0, joint.fetlock - 0.9, -84, 84, 13)),
    },
  };
}
