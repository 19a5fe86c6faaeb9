/**
 * Lateral measures as text that a computer algebra reads: formulas in the pixels of the picture, whose numbers are named after
 * the landmarks (`p3_tip_x`), the ends of the ground line (`ground_a_x`) and those of the marker.
 */
const x = (name: string): string => `${name.replaceAll('.', '_')}_x`;
const y = (name: string): string => `${name.replaceAll('.', '_')}_y`;

export function distance(a: string, b: string): string {
  return `sqrt((${x(b)} - ${x(a)})^2 + (${y(b)} - ${y(a)})^2)`;
}

/** Twice the area of the triangle a, b, p, by its sign the side on which p lies. */
function area(a: string, b: string, p: string): string {
  return `((${x(b)} - ${x(a)}) * (${y(p)} - ${y(a)}) - (${y(b)} - ${y(a)}) * (${x(p)} - ${x(a)}))`;
}

/** Distance of a point from the line through two others. */
export function squareOff(p: string, a: string, b: string): string {
  return `${area(a, b, p)} / ${distance(a, b)}`;
}

export const heightOf = (name: string): string => squareOff(name, 'ground_a', 'ground_b');

export function alongGround(name: string): string {
  const along = `((ground_b_x - ground_a_x) * (${x(name)} - ground_a_x) + (ground_b_y - ground_a_y) * (${y(name)} - ground_a_y))`;
  return `${along} / ${distance('ground_a', 'ground_b')}`;
}

/** Degrees between the line of two points and the ground line. */
export function slopeOf(low: string, high: string): string {
  const inclination = (a: string, b: string): string => `atan((${y(b)} - ${y(a)}) / (${x(b)} - ${x(a)}))`;
  return `180 / pi * (${inclination(low, high)} - ${inclination('ground_a', 'ground_b')})`;
}

/**
 * From a place on the bone's dorsal face, `share` of the way from its lower to its upper point, square to the face to the line
 * through two points of the wall: both ends of the face stand off that line by a known distance along the normal, and between
 * them it changes evenly.
 */
export function normalReach(share: number, upper: string, lower: string): string {
  const [low, high] = ['p3.dorsal.lower', 'p3.dorsal.upper'];
  const off = `(${share} * ${area(upper, lower, high)} + ${1 - share} * ${area(upper, lower, low)})`;
  const cosine = `((${x(lower)} - ${x(upper)}) * (${x(high)} - ${x(low)}) + (${y(lower)} - ${y(upper)}) * (${y(high)} - ${y(low)}))`;
  return `${off} * ${distance(low, high)} / ${cosine}`;
}

/**
 * How far one place lies below another where the hairline is turned to 20 degrees. The picture's y points down and either side may be
 * the toe's: `side` is 1 where a turn from the toe's direction to
 * the bone's side of the ground is a turn from x to y, else -1.
 */
export function leveled(high: string, low: string): string {
  const [heel, dorsal] = ['coronet.heel', 'coronet.dorsal'];
  const hx = `(${x(dorsal)} - ${x(heel)})`;
  const hy = `(${y(dorsal)} - ${y(heel)})`;
  const vx = `(${x(high)} - ${x(low)})`;
  const vy = `(${y(high)} - ${y(low)})`;
  return `((${hx} * ${vx} + ${hy} * ${vy}) * sin(pi / 9) + side * (${hx} * ${vy} - ${hy} * ${vx}) * cos(pi / 9)) / ${distance(heel, dorsal)}`;
}

/** Pixels to millimetres by the marker, less the magnification. */
export const toScale = (pixels: string): string =>
  `(${pixels}) * marker_mm / (${distance('marker_a', 'marker_b')} * magnify)`;
