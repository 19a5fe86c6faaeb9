import { soundFoot, type Places } from '../unit/plain-foot.ts';

type Place = readonly [number, number];

/** From a place, a way off along a line that leans back over the foot at so many degrees to the ground. */
export function leaning([x, y]: Place, degrees: number, length: number): Place {
  const radians = (degrees * Math.PI) / 180;
  return [x - length * Math.cos(radians), y + length * Math.sin(radians)];
}

const place = (name: string): Place => {
  const found = soundFoot[name];
  if (!found) throw new Error(`the sound foot has no ${name}`);
  return found;
};

export const wallAt = (degrees: number): Places => ({
  'wall.upper': leaning(place('wall.lower'), degrees, 45),
});
export const boneAt = (degrees: number): Places => ({
  'p3.dorsal.upper': leaning(place('p3.dorsal.lower'), degrees, 35),
});
export const middleAt = (degrees: number): Places => ({
  'pastern.centre': leaning(place('coffin.centre'), degrees, 45),
});
export const solarMarginAt = (degrees: number): Places => ({
  'p3.wing': leaning(place('p3.tip'), degrees, 80),
});

/**
 * Wall and its inner edge alongside the dorsal face of the bone, at these distances from it, and the bone's palmar cortex so
 * long. The face stands at 50 degrees, in the middle of horses' feet.
 */
export function wallBeside({ horn, zone = horn / 2, cortex }: { horn: number; zone?: number; cortex: number }): Places {
  const lower = place('p3.dorsal.lower');
  const upper = leaning(lower, 50, 35);
  const outward = (from: Place, distance: number): Place => leaning(from, 140, distance);
  return {
    'p3.dorsal.upper': upper,
    'wall.lower': outward(lower, horn),
    'wall.upper': outward(upper, horn),
    'wall.inner.lower': outward(lower, zone),
    'wall.inner.upper': outward(upper, zone),
    'p3.navicular': leaning(place('p3.tip'), 15, cortex),
  };
}
