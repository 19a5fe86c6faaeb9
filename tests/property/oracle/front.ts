/**
 * The measures of the front view, computed apart from the product, with complex numbers as in
 * lateral.ts.
 *
 * Reading of the text, where the definition leaves room:
 *  1. A pair settles the sign of u only where both of its points are placed. The joint never does,
 *     so a joint and a ground segment alone have no frame.
 *  2. Without such a pair there is no measure at all, not even the height of a single margin, which
 *     would not depend on the sign of u: the definition gives no frame, and measures need one.
 *  3. v needs one point of the bone only. "All landmarks" are those of the same reading.
 *  4. Medial and lateral are what the names say; the foot is not asked, nor the side of the picture.
 *     Where the names of two pairs contradict one another, the first pair of the list is believed,
 *     and ground-width may then be negative.
 *  5. Angles lie in (-180, 180] and are not folded into an acute one.
 *  6. sole-depth is the height of the bone above the ground, air under the sole included, other than
 *     in the lateral view.
 *  7. Only the first end of the ground line is the origin of X, and no measure depends on it.
 *  8. magnify divides either form of scale, as in the lateral view.
 */

import {
  argument,
  complex,
  conjugate,
  mean,
  minus,
  modulus,
  scaleOf,
  times,
  unit,
  upwards,
  type Complex,
  type Film,
  type Framed,
  type Placed,
  type Values,
} from './lateral.ts';

const TELL_THE_SIDES = ['p3', 'coronet', 'wall'] as const;

export function frontFrameOf(film: Film): Framed | undefined {
  const image: Placed = new Map();
  for (const landmark of film.landmarks) image.set(landmark.name, upwards(landmark));

  const from = film.ground ? upwards(film.ground.a) : image.get('wall.medial');
  const to = film.ground ? upwards(film.ground.b) : image.get('wall.lateral');
  if (!from || !to || modulus(minus(to, from)) === 0) return undefined;

  let outwards: Complex | undefined;
  for (const part of TELL_THE_SIDES) {
    const medial = image.get(`${part}.medial`);
    const lateral = image.get(`${part}.lateral`);
    if (medial && lateral) outwards ??= minus(lateral, medial);
  }
  if (!outwards) return undefined;

  let turning = conjugate(unit(minus(to, from)));
  if (times(outwards, turning).re < 0) turning = complex(-turning.re, -turning.im);

  const bone = [...image].filter(([name]) => name.startsWith('p3.')).map(([, point]) => point);
  const above = mean(bone.length > 0 ? bone : [...image.values()]);
  const mirrored = times(minus(above, from), turning).im < 0;

  const scale = scaleOf(film);
  const points: Placed = new Map();
  for (const [name, point] of image) {
    const turned = times(minus(point, from), turning);
    points.set(name, times(mirrored ? conjugate(turned) : turned, complex(scale ?? 1, 0)));
  }
  return { points, scale };
}

export function frontMeasuresOf(film: Film): Values {
  const framed = frontFrameOf(film);
  return framed ? frontMeasuresOfPoints(framed) : new Map();
}

function frontMeasuresOfPoints(framed: Framed): Values {
  const values: Values = new Map();
  const at = (name: string): Complex | undefined => framed.points.get(name);

  for (const part of ['p3', 'joint', 'coronet']) {
    const medial = at(`${part}.medial`);
    const lateral = at(`${part}.lateral`);
    if (medial && lateral) values.set(`${part}-tilt`, argument(minus(lateral, medial)));
  }
  for (const side of ['medial', 'lateral'] as const) {
    const ground = at(`wall.${side}`);
    const hairline = at(`coronet.${side}`);
    if (ground && hairline) {
      const rise = minus(hairline, ground);
      // Both walls lean inwards: the lateral one is mirrored, so that both open into the foot.
      values.set(`wall-angle.${side}`, argument(side === 'medial' ? rise : complex(-rise.re, rise.im)));
    }
    const margin = at(`p3.${side}`);
    if (margin && framed.scale !== undefined) values.set(`sole-depth.${side}`, margin.im);
  }
  const medial = at('wall.medial');
  const lateral = at('wall.lateral');
  if (medial && lateral && framed.scale !== undefined) values.set('ground-width', lateral.re - medial.re);
  return values;
}

export interface SideCut {
  insideDown: number;
  outsideDown: number;
}

/**
 * What lowering one side leaves: the foot turned with its frame onto the line through the two lowered contacts. The height
 * of a contact above the ground line counts for nothing but itself, as in trim.ts.
 */
export function frontTrimmed(film: Film, cut: SideCut): { delta: number; predicted: Values } | undefined {
  const framed = frontFrameOf(film);
  const medial = framed?.points.get('wall.medial');
  const lateral = framed?.points.get('wall.lateral');
  if (!framed || framed.scale === undefined || !medial || !lateral || lateral.re <= medial.re) return undefined;
  const newMedial = complex(medial.re, cut.insideDown);
  const newLateral = complex(lateral.re, cut.outsideDown);
  const turning = conjugate(unit(minus(newLateral, newMedial)));
  const points: Placed = new Map();
  for (const [name, point] of framed.points) {
    const lowered = name === 'wall.medial' ? cut.insideDown : name === 'wall.lateral' ? cut.outsideDown : 0;
    points.set(name, times(minus(complex(point.re, point.im + lowered), newMedial), turning));
  }
  const delta = (Math.atan2(cut.outsideDown - cut.insideDown, lateral.re - medial.re) * 180) / Math.PI;
  return { delta, predicted: frontMeasuresOfPoints({ points, scale: framed.scale }) };
}

export function frontUnitOf(measure: string): 'deg' | 'mm' {
  return /tilt$|^wall-angle/.test(measure) ? 'deg' : 'mm';
}
