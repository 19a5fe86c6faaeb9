import { foot, type LandmarkName } from './foot.ts';
import type { FootParameters } from './parameters.ts';
import { at, radians, type Point } from './plane.ts';

/** What becomes of a drawn foot from one film to the next, one thing at a time, so that it is known what moved and what did not. */

/**
 * The heels lowered so that the whole foot stands flatter by so many degrees, turned about the toe's contact. Nothing moves in
 * the capsule; the pastern bones keep their angle to the ground.
 */
export function flatter(p: FootParameters, degrees: number): FootParameters {
  const { landmarks } = foot(p);
  const place = (name: LandmarkName): Point => {
    const found = landmarks.get(name);
    if (!found) throw new Error(`the foot lacks ${name}`);
    return found;
  };
  const toe = place('toe.ground');
  const [c, s] = [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  const height = (name: LandmarkName): number => {
    const { x, y } = place(name);
    return turned(at(x - toe.x, y - toe.y), c, s).y;
  };
  return {
    ...p,
    palmarAngle: p.palmarAngle - degrees,
    heelAngle: p.heelAngle - degrees,
    coronetAngle: p.coronetAngle + degrees,
    founderDistance: height('wall.top') - height('p3.extensor'),
    soleTip: height('p3.tip') - height('sole.tip'),
    soleWing: height('p3.wing') - height('sole.wing'),
    cup: height('sole.tip'),
    heelSurplus: height('sole.heel'),
    bearingLength: p.bearingLength / c,
  };
}

/** Heels down: what lies behind the toe comes down. */
function turned({ x, y }: Point, c: number, s: number): Point {
  return at(x * c - y * s, x * s + y * c);
}

/** The bone so many millimetres lower in a capsule that stays: the layer before it widens as the wall leans over it. */
export function sunk(p: FootParameters, mm: number): FootParameters {
  const slope = p.palmarAngle + p.p3Angle - p.rotation;
  const wider = mm * Math.cos(radians(slope));
  return {
    ...p,
    founderDistance: p.founderDistance + mm,
    soleTip: p.soleTip - mm,
    soleWing: p.soleWing - mm,
    hornLamellar: p.hornLamellar + wider,
    lamellarUpper: p.lamellarUpper + wider,
    lamellarLower: p.lamellarLower + wider,
  };
}
