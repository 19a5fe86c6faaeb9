/**
 * The measures of the solar view, computed apart from the product. Points are divided, as complex
 * numbers, by the way from the middle of the heels to the toe: the toe is then 1, whatever the
 * picture, and a place along the foot is a real part.
 *
 * Reading of the text, where the definition leaves room:
 *  1. Without toe, heel.medial and heel.lateral there is no measure at all, not even a distance
 *     that needs none of them.
 *  2. A ground segment on a solar picture is no part of anything, nor does it widen a spread.
 *  3. toe-split needs both points of the widest place; one alone has no mean.
 *  4. Shares need the frame but no scale; they are the same in pixels.
 *  5. Every share that is said to be of sole-length is of X toe, which is never negative.
 *  6. bar.medial and bar.lateral are part of no measure.
 */

import {
  complex,
  conjugate,
  halfway,
  minus,
  modulus,
  scaleOf,
  times,
  upwards,
  type Complex,
  type Film,
  type Values,
} from './lateral.ts';

function dividedBy(p: Complex, q: Complex): Complex {
  const squared = q.re ** 2 + q.im ** 2;
  return times(times(p, conjugate(q)), complex(1 / squared, 0));
}

export function solarMeasuresOf(film: Film): Values {
  const image = new Map(film.landmarks.map((landmark) => [landmark.name, upwards(landmark)]));
  const toe = image.get('toe');
  const medialHeel = image.get('heel.medial');
  const lateralHeel = image.get('heel.lateral');
  if (!toe || !medialHeel || !lateralHeel) return new Map();
  const middle = halfway(medialHeel, lateralHeel);
  const axis = minus(toe, middle);
  const pixels = modulus(axis);
  if (pixels === 0) return new Map();

  const at = (name: string): Complex | undefined => {
    const point = image.get(name);
    return point && dividedBy(minus(point, middle), axis);
  };
  const apart = (one: string, other: string): number | undefined => {
    const p = at(one);
    const q = at(other);
    return p && q && modulus(minus(p, q));
  };

  const lengths: Record<string, number | undefined> = {
    'sole-length': 1,
    'sole-width': apart('wide.medial', 'wide.lateral'),
    'heel-width': apart('heel.medial', 'heel.lateral'),
    'frog-width': apart('frog.medial', 'frog.lateral'),
    'frog-length': apart('frog.apex', 'frog.base'),
  };
  const wideMedial = at('wide.medial');
  const wideLateral = at('wide.lateral');
  const heelWidth = lengths['heel-width'];
  const frogWidth = lengths['frog-width'];
  const shares: Record<string, number | undefined> = {
    'width-share': lengths['sole-width'],
    'heel-frog-share': heelWidth === undefined || frogWidth === undefined ? undefined : heelWidth / frogWidth,
    'toe-split': wideMedial && wideLateral && 1 - halfway(wideMedial, wideLateral).re,
    'frog-place': at('frog.apex')?.re,
  };

  const values: Values = new Map();
  const scale = scaleOf(film);
  if (scale !== undefined) {
    for (const [measure, share] of Object.entries(lengths))
      if (share !== undefined) values.set(measure, share * pixels * scale);
  }
  for (const [measure, share] of Object.entries(shares)) if (share !== undefined) values.set(measure, 100 * share);
  return values;
}

export function solarUnitOf(measure: string): 'mm' | '%' {
  return /share$|^toe-split$|^frog-place$/.test(measure) ? '%' : 'mm';
}
