/**
 * A second, independent computation of the lateral measures, against which the product is tested.
 * It works with complex numbers (X + iY) where the product works with vectors, so that a slip of
 * sign or order made in one is unlikely to be made in the other.
 *
 * Reading of the text, where the definition leaves room:
 *  1. `u is taken from toe.ground - heel.ground` settles the sign only; the direction stays that of
 *     the ground segment where there is one.
 *  2. A ground segment without p3.tip and p3.wing, and without toe.ground and heel.ground, leaves
 *     the facing unknown: there is no frame, hence no measure, not even plain distances.
 *  3. p3.wing.other alone is not a wing: a midpoint needs both.
 *  4. With p3.wing.other placed, the midpoint is the wing everywhere: in the angle, the sole depth,
 *     the facing, and the mean that decides which side is up.
 *  5. Without p3.tip and without a ground segment, X starts at heel.ground. No measure depends on it.
 *  6. `magnify` divides the scale in either form, and the scale that is reported is the divided one.
 *  7. The outward normal is the one to the right of the way from p3.dorsal.lower to
 *     p3.dorsal.upper when the toe points right. The distance along it is signed.
 *  8. A point "below" the coronet line is on the right-hand side of the way from heel to toe.
 *  9. bearing-length and toe-share keep their sign.
 * 10. Ratios need the frame but no scale, phalanx-ratio and the shares included.
 * 11. Hind feet report palmar-angle under that name; plantar-angle is a spelling for input only.
 * 12. hoof-pastern-deviation falls back on the middle axis only where fetlock.centre itself is
 *     missing; with it placed and coffin.centre missing there is none.
 * 13. A shod foot is laid out twice: along its bearing plane and along the ground. Each measure is read off the one that it is
 *     measured to (BEARING and GROUND below), what is measured to neither off either. The facing and the upper side are settled
 *     by the same landmarks both times.
 * 14. The contacts stand in for the ground of a bare foot alone: a shod film has no measure to a plane that is not placed, and one
 *     with a bearing plane but no ground none to the ground, whatever is said of a shoe.
 *     The depth of the sole alone is then read off the ground, where its lower point lies less than a millimetre below that (UNDER_A_SHOE).
 * 15. The shoe is measured in the frame along the bearing plane; its thickness at a contact's X, whatever the contact's height.
 *     The palmar angle to the bearing plane is one of a film on which that plane is placed, whether its ground is or not.
 * 16. Of `scale bone` the size is that at the bone, so `magnify` does not divide it. One length alone gives no scale.
 */

export interface Point {
  x: number;
  y: number;
  /** One standard deviation in pixels, where the placing states its own. */
  spread?: number;
}

export interface Landmark extends Point {
  name: string;
}

export interface Segment {
  a: Point;
  b: Point;
}

export type LengthUnit = 'mm' | 'cm' | 'in';

export type Scale =
  { form: 'stated'; mmPerPx: number } | { form: 'marker'; length: number; unit: LengthUnit; ends: Segment };

/** What the bones of a foot measure by its other films, and how well that is known, as a share of each. */
export interface KnownBones {
  lengths: { from: string; to: string; mm: number }[];
  /** x is 1, with its standard deviation: all lengths may be off together. */
  together: Point;
}

export interface Film {
  landmarks: Landmark[];
  ground?: Segment;
  /** The plane between hoof and shoe. */
  bearing?: Segment;
  /** Whether the case says that the foot wears a shoe. */
  shod?: boolean;
  scale?: Scale;
  /** Set where the film says `scale bone`; there is no `scale` then. */
  bones?: KnownBones;
  magnify?: number;
  /** The reader's own standard deviation in pixels, where it is known. */
  readerSpread?: number;
}

export type Values = Map<string, number>;

/** X + iY in millimetres (in pixels where there is no scale). */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export type Placed = Map<string, Complex>;

export interface Framed {
  points: Placed;
  /** mm per pixel; undefined where the film has no scale. */
  scale: number | undefined;
}

export interface Laid extends Framed {
  /** A place of the picture, y upwards, in the frame. */
  onto: (place: Complex) => Complex;
}

const MM_PER_UNIT: Record<LengthUnit, number> = { mm: 1, cm: 10, in: 25.4 };

export function inMillimetres(length: number, unit: LengthUnit): number {
  return length * MM_PER_UNIT[unit];
}

export const complex = (re: number, im: number): Complex => ({ re, im });
export const minus = (p: Complex, q: Complex): Complex => complex(p.re - q.re, p.im - q.im);
export const conjugate = (p: Complex): Complex => complex(p.re, -p.im);
export const times = (p: Complex, q: Complex): Complex => complex(p.re * q.re - p.im * q.im, p.re * q.im + p.im * q.re);
export const modulus = (p: Complex): number => Math.hypot(p.re, p.im);
export const unit = (p: Complex): Complex => complex(p.re / modulus(p), p.im / modulus(p));
export const halfway = (p: Complex, q: Complex): Complex => complex((p.re + q.re) / 2, (p.im + q.im) / 2);
export const argument = (p: Complex): number => (Math.atan2(p.im, p.re) * 180) / Math.PI;

/** Minus the conjugate mirrors the toe-to-limb line, so that its argument opens towards the heel. */
export function slope(distal: Complex, proximal: Complex): number {
  const line = minus(proximal, distal);
  return argument(complex(-line.re, line.im));
}

export function turn(degrees: number): number {
  let turned = degrees % 360;
  if (turned > 180) turned -= 360;
  if (turned <= -180) turned += 360;
  return turned;
}

/** Pixels between two placings; the wing is halfway between both wings where both are placed. */
export function pixelsBetween(film: Film, from: string, to: string): number | undefined {
  const at = (name: string): Complex | undefined => {
    const all = film.landmarks.filter(
      (one) => one.name === name || (name === 'p3.wing' && one.name === 'p3.wing.other'),
    );
    return all.some((one) => one.name === name) ? mean(all.map(upwards)) : undefined;
  };
  const [a, b] = [at(from), at(to)];
  return a && b ? modulus(minus(b, a)) : undefined;
}

/** The middle ratio of what is known to what is seen; `magnify` says nothing of it, as the bones lie where they lie. */
function scaleOfBones(film: Film, { lengths, together }: KnownBones): number | undefined {
  const ratios = lengths.flatMap(({ from, to, mm }) => {
    const pixels = pixelsBetween(film, from, to);
    return pixels === undefined ? [] : [mm / pixels];
  });
  return ratios.length < 2 ? undefined : middleOf(ratios) * together.x;
}

export function middleOf(numbers: readonly number[]): number {
  const rising = numbers.toSorted((a, b) => a - b);
  const [low, high] = [rising[(rising.length - 1) >> 1], rising[rising.length >> 1]];
  return ((low ?? NaN) + (high ?? NaN)) / 2;
}

export function scaleOf(film: Film): number | undefined {
  if (film.bones) return scaleOfBones(film, film.bones);
  if (film.scale === undefined) return undefined;
  const seen =
    film.scale.form === 'stated'
      ? film.scale.mmPerPx
      : inMillimetres(film.scale.length, film.scale.unit) /
        modulus(complex(film.scale.ends.b.x - film.scale.ends.a.x, film.scale.ends.b.y - film.scale.ends.a.y));
  return seen / (film.magnify ?? 1);
}

export function mean(points: readonly Complex[]): Complex {
  let re = 0;
  let im = 0;
  for (const point of points) {
    re += point.re;
    im += point.im;
  }
  return complex(re / points.length, im / points.length);
}

export const upwards = (point: Point): Complex => complex(point.x, -point.y);

/** Undefined where the line or the way the foot faces is not known. `line`: what the foot is laid along, else its contacts. */
export function frameOf(film: Film, line: Segment | undefined = film.bearing ?? film.ground): Laid | undefined {
  const image: Placed = new Map();
  for (const landmark of film.landmarks) image.set(landmark.name, upwards(landmark));
  const wing = image.get('p3.wing');
  const otherWing = image.get('p3.wing.other');
  if (wing && otherWing) image.set('p3.wing', halfway(wing, otherWing));

  const heel = image.get('heel.ground');
  const toe = image.get('toe.ground');
  const from = line ? upwards(line.a) : heel;
  const to = line ? upwards(line.b) : toe;
  if (!from || !to || modulus(minus(to, from)) === 0) return undefined;

  const tip = image.get('p3.tip');
  const wingOnImage = image.get('p3.wing');
  let toeward: Complex;
  if (tip && wingOnImage) toeward = minus(tip, wingOnImage);
  else if (toe && heel) toeward = minus(toe, heel);
  else return undefined;

  // Multiplying by the conjugate of a unit number turns the ground onto the real axis.
  let turning = conjugate(unit(minus(to, from)));
  if (times(toeward, turning).re < 0) turning = complex(-turning.re, -turning.im);

  const bone: Complex[] = [];
  for (const name of ['p3.tip', 'p3.wing', 'p3.extensor']) {
    const point = image.get(name);
    if (point) bone.push(point);
  }
  const above = mean(bone.length > 0 ? bone : [...image.values()]);
  const mirrored = times(minus(above, from), turning).im < 0;

  const scale = scaleOf(film);
  const factor = scale ?? 1;
  const start = tip ? times(minus(tip, from), turning).re : 0;
  const onto = (place: Complex): Complex => {
    const turned = times(minus(place, from), turning);
    return complex((turned.re - start) * factor, (mirrored ? -turned.im : turned.im) * factor);
  };
  const points: Placed = new Map([...image].map(([name, point]) => [name, onto(point)]));
  return { points, onto, scale };
}

/** What is measured to the plane that is trimmed. */
const BEARING = new Set([
  'wall-angle',
  'heel-angle',
  'coronet-angle',
  'founder-distance',
  'coronet-extensor',
  'cup.tip',
  'heel-height',
  'heel-surplus',
  'bearing-length',
  'breakover-reach',
  'toe-share',
]);

/** What is measured to the ground where the plane that is trimmed is not shown; and the point that then lies above the ground. */
const EITHER = new Map([
  ['sole-depth.tip', 'sole.tip'],
  ['sole-depth.wing', 'sole.wing'],
]);
/** mm. */
const UNDER_A_SHOE = -1;

/** What is measured to the plane that the foot stands on. */
export const GROUND = new Set(['palmar-angle', 'bone-angle', 'middle-angle', 'axis-angle']);

/** Whether the film shows where the trimmed wall bears. */
export const showsBearing = ({ bearing, shod }: Film): boolean => bearing !== undefined || !shod;

/** Degrees by which the shoe turns the foot against the ground; undefined where the ground is not known. */
export function wedgeOf(film: Film, { onto }: Laid): number | undefined {
  if (!film.bearing) return film.ground || !film.shod ? 0 : undefined;
  if (!film.ground) return undefined;
  const [a, b] = [onto(upwards(film.ground.a)), onto(upwards(film.ground.b))];
  return argument(a.re < b.re ? minus(b, a) : minus(a, b));
}

function shoeOf(film: Film, { points, onto, scale }: Laid): Values {
  const values: Values = new Map();
  if (!film.bearing || !film.ground) return values;
  const [a, b] = [onto(upwards(film.ground.a)), onto(upwards(film.ground.b))];
  for (const end of ['toe', 'heel']) {
    const contact = points.get(`${end}.ground`);
    if (!contact || scale === undefined) continue;
    // The share of the way from a to b at which the ground lies below the contact.
    const share = (contact.re - a.re) / (b.re - a.re);
    values.set(`shoe-thickness.${end}`, -(a.im * (1 - share) + b.im * share));
  }
  const wedge = wedgeOf(film, { points, onto, scale });
  if (wedge !== undefined) values.set('shoe-wedge', wedge);
  return values;
}

/** How far along the outward normal of the bone's face, starting at `from`, the line a-b is met. */
function outwardReach(from: Complex, face: Complex, a: Complex, b: Complex): number {
  const outward = unit(complex(face.im, -face.re));
  const p = times(minus(a, from), conjugate(outward));
  const q = times(minus(b, from), conjugate(outward));
  return p.re - (p.im * (q.re - p.re)) / (q.im - p.im);
}

function anglesOf(at: (name: string) => Complex | undefined): Values {
  const values: Values = new Map();
  const slopes: readonly (readonly [measure: string, distal: string, proximal: string])[] = [
    ['wall-angle', 'wall.lower', 'wall.upper'],
    ['bone-angle', 'p3.dorsal.lower', 'p3.dorsal.upper'],
    ['palmar-angle', 'p3.tip', 'p3.wing'],
    ['heel-angle', 'heel.ground', 'heel.upper'],
    ['middle-angle', 'coffin.centre', 'pastern.centre'],
    ['axis-angle', 'coffin.centre', 'fetlock.centre'],
  ];
  for (const [measure, distalName, proximalName] of slopes) {
    const distal = at(distalName);
    const proximal = at(proximalName);
    if (distal && proximal) values.set(measure, slope(distal, proximal));
  }
  const coronetToe = at('coronet.dorsal');
  const coronetHeel = at('coronet.heel');
  if (coronetToe && coronetHeel) values.set('coronet-angle', argument(minus(coronetToe, coronetHeel)));

  const wall = values.get('wall-angle');
  const bone = values.get('bone-angle');
  const heel = values.get('heel-angle');
  const middle = values.get('middle-angle');
  const axis = at('fetlock.centre') ? values.get('axis-angle') : middle;
  if (bone !== undefined && wall !== undefined) values.set('capsular-rotation', turn(bone - wall));
  if (bone !== undefined && middle !== undefined) values.set('phalangeal-rotation', turn(bone - middle));
  if (wall !== undefined && axis !== undefined) values.set('hoof-pastern-deviation', turn(wall - axis));
  if (wall !== undefined && heel !== undefined) values.set('toe-heel-difference', turn(wall - heel));
  return values;
}

function lengthsOf(at: (name: string) => Complex | undefined): Values {
  const values: Values = new Map();
  const heights: readonly (readonly [measure: string, upper: string, lower: string])[] = [
    ['founder-distance', 'wall.top', 'p3.extensor'],
    ['coronet-extensor', 'coronet.dorsal', 'p3.extensor'],
    ['sole-depth.tip', 'p3.tip', 'sole.tip'],
    ['sole-depth.wing', 'p3.wing', 'sole.wing'],
    ['heel-height', 'coronet.heel', 'heel.ground'],
    ['heel-surplus', 'sole.heel', 'heel.ground'],
  ];
  for (const [measure, upperName, lowerName] of heights) {
    const upper = at(upperName);
    const lower = at(lowerName);
    if (upper && lower) values.set(measure, upper.im - lower.im);
  }
  const distances: readonly (readonly [measure: string, from: string, to: string])[] = [
    ['p3-length', 'p3.tip', 'p3.wing'],
    ['p3-back', 'p3.extensor', 'p3.wing'],
    ['p2-length', 'coffin.centre', 'pastern.centre'],
    ['cortex-length', 'p3.tip', 'p3.navicular'],
    ['toe-length', 'coronet.dorsal', 'toe.ground'],
    ['grown-out', 'coronet.dorsal', 'wall.turn'],
  ];
  for (const [measure, fromName, toName] of distances) {
    const from = at(fromName);
    const to = at(toName);
    if (from && to) values.set(measure, modulus(minus(to, from)));
  }
  const reaches: readonly (readonly [measure: string, front: string, back: string])[] = [
    ['bearing-length', 'toe.ground', 'heel.ground'],
    ['breakover-reach', 'breakover', 'p3.tip'],
  ];
  for (const [measure, frontName, backName] of reaches) {
    const front = at(frontName);
    const back = at(backName);
    if (front && back) values.set(measure, front.re - back.re);
  }

  const soleTip = at('sole.tip');
  if (soleTip) values.set('cup.tip', soleTip.im);

  const upper = at('p3.dorsal.upper');
  const lower = at('p3.dorsal.lower');
  if (upper && lower) {
    const face = minus(upper, lower);
    const starts = { upper, middle: halfway(upper, lower), lower };
    const lines = { 'horn-lamellar': 'wall', 'lamellar-zone': 'wall.inner' };
    for (const [measure, line] of Object.entries(lines)) {
      const a = at(`${line}.lower`);
      const b = at(`${line}.upper`);
      if (!a || !b) continue;
      for (const [level, from] of Object.entries(starts)) {
        values.set(`${measure}.${level}`, outwardReach(from, face, a, b));
      }
    }
  }

  const coronetToe = at('coronet.dorsal');
  const coronetHeel = at('coronet.heel');
  const extensor = at('p3.extensor');
  if (coronetToe && coronetHeel && extensor) {
    // Turned until the hairline, from heel to toe, points 20 degrees upwards.
    const hairline = unit(minus(coronetToe, coronetHeel));
    const level = complex(Math.cos(Math.PI / 9), Math.sin(Math.PI / 9));
    const turned = (point: Complex): Complex => times(times(point, conjugate(hairline)), level);
    values.set('coronet-extensor.level', turned(coronetToe).im - turned(extensor).im);
    const top = at('wall.top');
    if (top) values.set('founder-distance.level', turned(top).im - turned(extensor).im);
  }
  const navicular = at('navicular.upper');
  if (coronetToe && coronetHeel && navicular) {
    const heelToToe = unit(minus(coronetToe, coronetHeel));
    values.set('coronet-navicular', -times(minus(navicular, coronetHeel), conjugate(heelToToe)).im);
  }
  return values;
}

function ratiosOf(at: (name: string) => Complex | undefined, lengths: Values): Values {
  const values: Values = new Map();
  const shares: readonly (readonly [measure: string, part: string, whole: string])[] = [
    ['horn-lamellar-share', 'horn-lamellar.middle', 'cortex-length'],
    ['lamellar-share', 'lamellar-zone.middle', 'cortex-length'],
    ['grown-out-share', 'grown-out', 'toe-length'],
  ];
  for (const [measure, partName, wholeName] of shares) {
    const part = lengths.get(partName);
    const whole = lengths.get(wholeName);
    if (part !== undefined && whole !== undefined) values.set(measure, (100 * part) / whole);
  }
  const toe = at('toe.ground');
  const coffin = at('coffin.centre');
  const bearing = lengths.get('bearing-length');
  if (toe && coffin && bearing !== undefined) values.set('toe-share', (100 * (toe.re - coffin.re)) / bearing);

  const pastern = at('pastern.centre');
  const fetlock = at('fetlock.centre');
  if (coffin && pastern && fetlock) {
    values.set('phalanx-ratio', modulus(minus(fetlock, pastern)) / modulus(minus(pastern, coffin)));
  }
  return values;
}

/** Every lateral measure that these points allow; lengths only where `scaled`. */
export function measuresOfPoints(points: Placed, scaled: boolean): Values {
  const at = (name: string): Complex | undefined => points.get(name);
  const lengths = lengthsOf(at);
  const values = anglesOf(at);
  if (scaled) for (const [measure, value] of lengths) values.set(measure, value);
  for (const [measure, value] of ratiosOf(at, lengths)) values.set(measure, value);
  return values;
}

export function measuresOf(film: Film): Values {
  const laid = frameOf(film);
  if (!laid) return new Map();
  const values = measuresOfPoints(laid.points, laid.scale !== undefined);
  if (!showsBearing(film)) {
    for (const measure of BEARING) values.delete(measure);
    for (const [measure, point] of EITHER) {
      const height = laid.points.get(point)?.im;
      if (height !== undefined && height <= UNDER_A_SHOE) values.delete(measure);
    }
  }
  const alongBearing = film.bearing && values.get('palmar-angle');
  if (alongBearing !== undefined) values.set('palmar-angle.bearing', alongBearing);
  const knowsGround = film.bearing ? film.ground !== undefined : film.ground !== undefined || !film.shod;
  const standing = knowsGround ? frameOf(film, film.ground) : undefined;
  const upright = standing ? measuresOfPoints(standing.points, false) : new Map<string, number>();
  for (const measure of GROUND) {
    const value = upright.get(measure);
    if (value === undefined) values.delete(measure);
    else values.set(measure, value);
  }
  for (const [measure, value] of shoeOf(film, laid)) values.set(measure, value);
  return values;
}

/** The pastern axis is the short one where the fetlock is not on the film. */
export function usesShortAxis(film: Film): boolean {
  return !film.landmarks.some((landmark) => landmark.name === 'fetlock.centre');
}

const RATIOS = new Set(['horn-lamellar-share', 'lamellar-share', 'toe-share', 'grown-out-share']);

/** Undefined for the one measure whose unit the definition does not name. */
export function unitOf(measure: string): 'deg' | 'mm' | '%' | undefined {
  if (measure === 'phalanx-ratio') return undefined;
  if (RATIOS.has(measure)) return '%';
  return /-(angle|rotation|deviation|difference|wedge|angle\.bearing)$/.test(measure) ? 'deg' : 'mm';
}
