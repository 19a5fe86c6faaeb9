/**
 * The lateral trim model, forward only, computed apart from the product.
 *
 * Reading of the text, where the definition leaves room:
 *  1. k = 0: P2 and the pastern axis keep their angle to the ground.
 *  2. The heel angle is that of the old heel wall, heel.ground and heel.upper both unmoved, so it
 *     falls by delta.
 *  3. heel-height is measured to heel.ground moved by H' - H, so that no cut changes nothing even
 *     where heel.ground was not placed exactly on the ground.
 *  4. The live sole cut and the depth left are perpendicular to the new line. The depth left is
 *     measured to the line where the cut passes above the sole point, else to the sole point.
 *  5. The wall left at the toe uses the wall angle before the cut, since `toe back` is taken along
 *     the old ground.
 *  6. Cuts are millimetres, so a film without a scale predicts nothing at all, and so does one
 *     without heel.ground or toe.ground.
 *  7. A sole point that is not placed has no cut: it is absent, not 0.
 *  8. All of it happens above the bearing plane. The shoe stays as it was, so that an angle to the ground is the same angle to the
 *     bearing plane with the wedge added, before the cut and after it. A film that does not show the bearing plane predicts nothing.
 *  9. With `heelFrom` and some heel there are two planes, which meet at the bend, so far in front of heel.ground. The front one
 *     is that of the cut without its heel, from heel.ground on. The foot stands on the one or on the other. Sole is cut by the
 *     plane that it lies over, behind the bend or in front of it, square to that plane, and stays on it; the front one cuts
 *     nothing without `toeDown`, be the sole placed under the ground. The depth left is
 *     square to what the foot stands on. A bend that is not behind the new toe contact predicts nothing.
 */

import {
  complex,
  conjugate,
  frameOf,
  GROUND,
  measuresOfPoints,
  minus,
  showsBearing,
  times,
  turn,
  unit,
  wedgeOf,
  type Complex,
  type Film,
  type Placed,
  type Values,
} from './lateral.ts';

/** Millimetres. */
export interface Cut {
  heelDown: number;
  heelFrom?: number;
  toeDown: number;
  toeBack: number;
}

export type SolePlace = 'tip' | 'wing' | 'heel';

export type Stance = 'heels' | 'toe';

export const bends = ({ heelDown, heelFrom }: Cut): boolean => heelFrom !== undefined && heelDown > 0;

export interface Trimmed {
  delta: number;
  predicted: Values;
  soleCut: Map<SolePlace, number>;
  wallLeft: number | undefined;
}

/** What a trim predicts; nothing else of the film is claimed to follow from a cut. */
export const PREDICTED = [
  'palmar-angle',
  'wall-angle',
  'bone-angle',
  'heel-angle',
  'middle-angle',
  'axis-angle',
  'phalangeal-rotation',
  'hoof-pastern-deviation',
  'founder-distance',
  'coronet-extensor',
  'founder-distance.level',
  'coronet-extensor.level',
  'coronet-angle',
  'heel-height',
  'sole-depth.tip',
  'sole-depth.wing',
] as const;

const FOLLOW_THE_FOOT = [
  'palmar-angle',
  'wall-angle',
  'bone-angle',
  'heel-angle',
  'coronet-angle',
  'founder-distance',
  'coronet-extensor',
  'founder-distance.level',
  'coronet-extensor.level',
] as const;

const KEEP_THEIR_ANGLE = ['middle-angle', 'axis-angle'] as const;

type Line = readonly [Complex, Complex];

/** Left and right of the imaginary part's sign: above a line is positive. */
const seenFrom = ([from, to]: Line, point: Complex): Complex =>
  times(minus(point, from), conjugate(unit(minus(to, from))));

/** Back from what `seenFrom` gives. */
function foot([from, to]: Line, point: Complex): Complex {
  const way = unit(minus(to, from));
  const along = seenFrom([from, to], point).re;
  return complex(from.re + along * way.re, from.im + along * way.im);
}

export function trimmed(film: Film, cut: Cut, stance: Stance = 'heels'): Trimmed | undefined {
  const framed = frameOf(film);
  const heel = framed?.points.get('heel.ground');
  const toe = framed?.points.get('toe.ground');
  if (!framed || framed.scale === undefined || !heel || !toe || !showsBearing(film)) return undefined;

  const before = measuresOfPoints(framed.points, true);
  const newHeel = complex(heel.re, cut.heelDown);
  const newToe = complex(toe.re - cut.toeBack, cut.toeDown);
  const lines: Line[] = [[newHeel, newToe]];
  if (bends(cut)) {
    const from = cut.heelFrom ?? NaN;
    const bend = complex(heel.re + from, (from * cut.toeDown) / (newToe.re - heel.re));
    if (!(bend.re < newToe.re)) return undefined;
    lines.splice(0, 1, [newHeel, bend], [bend, newToe]);
  }
  const standing = (stance === 'toe' ? lines.at(-1) : lines[0]) as Line;
  const lineUnder = (point: Complex): Line => lines.find(([, end]) => point.re < end.re) ?? (lines.at(-1) as Line);
  const onNewLine = (point: Complex): Complex => seenFrom(standing, point);

  const points: Placed = new Map();
  for (const [name, point] of framed.points) points.set(name, onNewLine(point));
  const turned = measuresOfPoints(points, true);

  const predicted: Values = new Map();
  const take = (measure: string, value: number | undefined): void => {
    if (value !== undefined) predicted.set(measure, value);
  };
  for (const measure of FOLLOW_THE_FOOT) take(measure, turned.get(measure));
  for (const measure of KEEP_THEIR_ANGLE) take(measure, before.get(measure));

  const bone = predicted.get('bone-angle');
  const middle = predicted.get('middle-angle');
  const wall = predicted.get('wall-angle');
  const axis = points.has('fetlock.centre') ? predicted.get('axis-angle') : middle;
  if (bone !== undefined && middle !== undefined) take('phalangeal-rotation', turn(bone - middle));
  if (wall !== undefined && axis !== undefined) take('hoof-pastern-deviation', turn(wall - axis));

  if (film.bearing) take('palmar-angle.bearing', predicted.get('palmar-angle'));
  const wedge = wedgeOf(film, framed);
  for (const measure of GROUND) {
    const toBearing = predicted.get(measure);
    if (toBearing === undefined) continue;
    if (wedge === undefined) predicted.delete(measure);
    else predicted.set(measure, toBearing + wedge);
  }

  const coronetHeel = points.get('coronet.heel');
  const movedHeel = onNewLine(complex(heel.re, heel.im + cut.heelDown));
  if (coronetHeel) take('heel-height', coronetHeel.im - movedHeel.im);

  const soleCut = new Map<SolePlace, number>();
  for (const place of ['tip', 'wing', 'heel'] as const) {
    const sole = framed.points.get(`sole.${place}`);
    if (!sole) continue;
    const under = lineUnder(sole);
    const isFrontLeft = lines.length > 1 && under === lines[1] && cut.toeDown === 0;
    const cutInto = isFrontLeft ? 0 : Math.max(0, -seenFrom(under, sole).im);
    soleCut.set(place, cutInto);
    const above = points.get(`p3.${place}`);
    const left = onNewLine(cutInto > 0 ? foot(under, sole) : sole);
    if (above) take(`sole-depth.${place}`, above.im - left.im);
  }

  const wallAngle = before.get('wall-angle');
  const thickness = before.get('horn-lamellar.lower');
  const wallLeft =
    wallAngle === undefined || thickness === undefined
      ? undefined
      : thickness - cut.toeBack * Math.sin((wallAngle * Math.PI) / 180);

  const [behind, inFront] = standing;
  const delta = (Math.atan2(behind.im - inFront.im, inFront.re - behind.re) * 180) / Math.PI;
  return { delta, predicted, soleCut, wallLeft };
}
