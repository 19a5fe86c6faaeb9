import type { Bones } from './bones.ts';
import { at, atHeight, facing, gap, leaning, meeting, middle, plus, times, type Point } from './plane.ts';
import type { FootParameters } from './parameters.ts';
import { open } from './spline.ts';

type WallName =
  | 'wall.upper'
  | 'wall.lower'
  | 'wall.top'
  | 'wall.inner.upper'
  | 'wall.inner.lower'
  | 'coronet.dorsal'
  | 'coronet.heel'
  | 'toe.ground'
  | 'heel.ground'
  | 'breakover'
  | 'heel.upper'
  | 'sole.tip'
  | 'sole.wing'
  | 'sole.heel';

export interface Capsule {
  landmarks: Record<WallName, Point> & { 'wall.turn'?: Point };
  /** hoof: its outer silhouette; filled: without the air under the sole; toeHorn: the dorsal horn alone; soleHorn. */
  outlines: Record<'hoof' | 'filled' | 'toeHorn' | 'soleHorn' | 'skin', Point[]>;
  /** The thin metal strip stuck on the dorsal wall; its upper end is the top of the firm wall. */
  strip: Point[];
  /** Soft streaks inside the limb: the flexor tendons. */
  tendons: Point[];
}

interface DorsalWall {
  coronet: Point;
  top: Point;
  turn?: Point;
  /** Where the old wall's straight part begins, and its slope. */
  from: Point;
  slope: number;
  newSlope: number;
}

function dorsalWall(p: FootParameters, b: Bones): DorsalWall {
  const bone = p.palmarAngle + p.p3Angle;
  const slope = bone - p.rotation;
  const up = leaning(slope);
  const on = plus(b.landmarks['p3.dorsal.upper'], times(facing(bone), p.hornLamellar));
  const level = b.landmarks['p3.extensor'].y + p.founderDistance;
  if (p.grownOut === undefined) {
    const top = atHeight(on, up, level);
    return { coronet: plus(top, times(up, p.softCoronet)), top, from: top, slope, newSlope: slope };
  }
  const newSlope = bone - (p.newRotation ?? p.rotation);
  const newUp = leaning(newSlope);
  const firm = p.grownOut - p.softCoronet;
  if (firm > 0) {
    const turn = atHeight(on, up, level - firm * newUp.y);
    const top = plus(turn, times(newUp, firm));
    return { coronet: plus(turn, times(newUp, p.grownOut)), top, turn, from: turn, slope, newSlope };
  }
  const top = atHeight(on, up, level);
  const turn = plus(top, times(up, -firm));
  return { coronet: plus(turn, times(newUp, p.grownOut)), top, turn, from: top, slope, newSlope };
}

/** The horn, the sole and the skin round the bones. */
export function capsule(p: FootParameters, b: Bones): Capsule {
  const k = p.size;
  const wall = dorsalWall(p, b);
  const up = leaning(wall.slope);
  const bone = p.palmarAngle + p.p3Angle;
  const { coronet } = wall;

  if (p.toeLength <= coronet.y) throw new Error('the toe is too short to reach the ground');
  const toe = at(coronet.x + Math.sqrt(p.toeLength ** 2 - coronet.y ** 2), 0);
  const roll = atHeight(wall.from, up, 0).x - toe.x;
  if (roll < 0) throw new Error('the toe is longer than its wall');
  const rollFrom = atHeight(wall.from, up, 2 + roll * 0.9);
  const straight = gap(wall.from, rollFrom);
  const down = (share: number): Point => plus(wall.from, times(up, -share * straight));

  const heel = at(toe.x - p.bearingLength, 0);
  const heelUp = leaning(p.heelAngle);
  const hairline = leaning(-p.coronetAngle);
  const coronetHeel = meeting(heel, heelUp, coronet, hairline);
  const heelUpper = plus(coronetHeel, times(heelUp, -5 * k));

  const tip = b.landmarks['p3.tip'];
  const wing = b.landmarks['p3.wing'];
  const soleTip = at(tip.x, tip.y - p.soleTip);
  const soleWing = at(wing.x, wing.y - p.soleWing);
  const soleHeel = at(heel.x + 8 * k, p.heelSurplus);

  const outward = facing(bone);
  const innerUpper = plus(b.landmarks['p3.dorsal.upper'], times(outward, p.lamellarUpper));
  const innerLower = plus(b.landmarks['p3.dorsal.lower'], times(outward, p.lamellarLower));
  const innerUp = at(innerUpper.x - innerLower.x, innerUpper.y - innerLower.y);

  // Outer contour, hairline to ground; between hairline and firm horn it swells a little, as the coronary cushion does.
  const swell = plus(
    middle(coronet, wall.turn && wall.turn.y > wall.top.y ? wall.turn : wall.top),
    times(facing(wall.newSlope), 0.7 * k),
  );
  const shoulder = [wall.turn, wall.top].filter((q) => q !== undefined).sort((m, n) => n.y - m.y);
  const rolled = open([
    plus(rollFrom, times(up, 6 * k)),
    plus(rollFrom, times(up, 2)),
    plus(at(rollFrom.x * 0.55 + toe.x * 0.45, rollFrom.y * 0.5), at(roll * 0.2, 0)),
    toe,
  ]);
  const outer = [...open([coronet, swell, shoulder[0] ?? wall.top], 4), ...shoulder.slice(1), ...rolled];

  // Inner contour of the dorsal horn; above the ring it runs with the new growth.
  const innerEnd = atHeight(innerLower, innerUp, Math.min(innerLower.y - 3, soleTip.y + p.soleTip * 0.5));
  const bed = plus(coronet, plus(times(leaning(wall.newSlope), -7 * k), times(facing(wall.newSlope), -7.2 * k)));
  const innerTurn = wall.turn && meeting(wall.turn, outward, innerUpper, innerUp);
  const innerTop = innerTurn && innerTurn.y < bed.y - 4 ? innerTurn : atHeight(innerUpper, innerUp, bed.y - 4);
  const inner = [
    ...open(
      [
        coronet,
        plus(coronet, plus(times(leaning(wall.newSlope), -2 * k), times(facing(wall.newSlope), -4.2 * k))),
        bed,
      ],
      5,
    ),
    innerTop,
    innerEnd,
  ];

  // The skin reaches a little under the horn's thin upper edge, so that no empty seam is left at the coronet.
  const underEdge = plus(coronet, times(leaning(wall.newSlope), -3 * k));

  const soleMiddle = plus(middle(soleTip, soleWing), at(0, 1.8));
  const soleLine = open([
    at(toe.x - 12 * k, 0),
    at(toe.x - 15.5 * k, p.cup * 0.55),
    soleTip,
    soleMiddle,
    soleWing,
    soleHeel,
    at(heel.x + 5.6 * k, p.heelSurplus * 0.6),
    at(heel.x + 5 * k, 0),
  ]);
  const within = (height: number, depth: number): Point => plus(atHeight(heel, heelUp, height), at(depth * k, 0));
  const corium = open([
    innerEnd,
    at(tip.x + 3 * k, soleTip.y + p.soleTip * 0.52),
    at(tip.x - 8 * k, soleTip.y + p.soleTip * 0.58),
    plus(soleMiddle, at(0, (p.soleTip + p.soleWing) * 0.28)),
    plus(soleWing, at(0, p.soleWing * 0.53)),
    within(p.heelSurplus + (coronetHeel.y - p.heelSurplus) * 0.45, 14),
    within(p.heelSurplus + (coronetHeel.y - p.heelSurplus) * 0.7, 8),
    coronetHeel,
  ]);

  const skin = skinLine(p, b, coronet, coronetHeel);
  const hair = open([coronetHeel, plus(middle(coronet, coronetHeel), times(facing(-p.coronetAngle), 1.6)), coronet], 8);
  const heelWall = [heel, heelUpper, coronetHeel];

  return {
    landmarks: {
      'wall.upper': down(0.16),
      'wall.lower': down(0.86),
      'wall.top': wall.top,
      ...(wall.turn ? { 'wall.turn': wall.turn } : {}),
      'wall.inner.upper': innerUpper,
      'wall.inner.lower': innerLower,
      'coronet.dorsal': coronet,
      'coronet.heel': coronetHeel,
      'toe.ground': toe,
      'heel.ground': heel,
      breakover: at(toe.x - p.breakoverBack, 0),
      'heel.upper': heelUpper,
      'sole.tip': soleTip,
      'sole.wing': soleWing,
      'sole.heel': soleHeel,
    },
    outlines: {
      hoof: [...outer, ...heelWall, ...hair.slice(1, -1)],
      filled: [...outer, ...soleLine, ...heelWall, ...hair.slice(1, -1)],
      toeHorn: [...outer, at(toe.x - 12 * k, 0), ...inner.slice(1).reverse()],
      soleHorn: [...soleLine, ...heelWall, ...corium.slice(0, -1).reverse()],
      skin: [...skin.dorsal, underEdge, bed, innerTop, innerEnd, ...corium.slice(1, -1), ...skin.palmar],
    },
    strip: strip(wall, down(0.8)),
    tendons: skin.tendons,
  };
}

function strip(wall: DorsalWall, end: Point): Point[] {
  const thick = 1.1;
  const bend = wall.turn && wall.turn.y < wall.top.y ? wall.turn : undefined;
  const upper = bend ? wall.newSlope : wall.slope;
  const out = (q: Point, slope: number): Point => plus(q, times(facing(slope), thick));
  return [
    wall.top,
    ...(bend ? [bend] : []),
    end,
    out(end, wall.slope),
    ...(bend ? [out(bend, (wall.slope + upper) / 2)] : []),
    out(wall.top, upper),
  ];
}

function skinLine(p: FootParameters, b: Bones, coronet: Point, coronetHeel: Point) {
  const frame = (origin: Point, slope: number) => (u: number, v: number) =>
    plus(origin, plus(times(leaning(slope), u * p.size), times(facing(slope), v * p.size)));
  const m = frame(b.landmarks['coffin.centre'], p.middleAngle);
  const q = frame(b.landmarks['pastern.centre'], p.proximalAngle);
  const f = frame(b.landmarks['fetlock.centre'], p.cannonAngle);
  const { p2Length: l2, p1Length: l1 } = p;
  const dorsal = open([
    f(112, 24),
    f(75, 24),
    f(40, 25.5),
    f(14, 29),
    q(l1 - 14, 28),
    q(l1 * 0.55, 22),
    q(l1 * 0.2, 21.5),
    m(l2 * 0.95, 24),
    m(l2 * 0.62, 26.5),
    coronet,
  ]);
  const bulb = coronetHeel;
  const palmar = open([
    bulb,
    plus(bulb, times(at(-1.2, 5), p.size)),
    plus(bulb, times(at(1, 13), p.size)),
    q(14, -43.5),
    q(l1 * 0.42, -40),
    q(l1 * 0.66, -43),
    q(l1 * 0.86, -54),
    f(-2, -55),
    f(18, -50),
    f(45, -43),
    f(75, -41),
    f(112, -40),
  ]);
  const tendons = open([
    f(112, -31),
    f(60, -32),
    f(22, -38),
    f(0, -43),
    q(l1 * 0.72, -36),
    q(l1 * 0.4, -27),
    q(4, -26),
    m(12, -24),
    m(-4, -30),
    b.landmarks['navicular.lower'],
  ]);
  return { dorsal, palmar, tendons };
}
