import { direction, distance, plus, turned, type XY } from '../../geometry/vector.ts';
import { body, engraved, innerLine, JOINT_GAP, outline, ROUNDED } from './bone-ink.ts';
import { corner, flatten, round, smooth, type Knot } from '../curve.ts';
import { hatchBetween, inside, swelling, type Tone } from '../hatch.ts';
import { coffinRadius, pasternRadius } from './joint-radii.ts';
import { group, type GroupNode, type SceneNode } from '../scene.ts';
import { all, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** A long pastern bone's side borders, in shares of its length: how far up, how far from the axis. */
interface Shape {
  readonly dorsal: readonly (readonly [number, number])[];
  readonly palmar: readonly (readonly [number, number])[];
  /** Where the upper joint surface starts and ends, as angles below the crosswise line, in radians. */
  readonly cup: readonly [number, number];
}

const SHORT_PASTERN: Shape = {
  dorsal: [
    [0.19, 0.345],
    [0.35, 0.33],
    [0.5, 0.338],
    [0.63, 0.368],
    [0.715, 0.39],
    [0.768, 0.352],
  ],
  palmar: [
    [0.17, 0.347],
    [0.33, 0.322],
    [0.48, 0.338],
    [0.61, 0.39],
    [0.695, 0.428],
    [0.765, 0.395],
  ],
  cup: [0.76, 0.72],
};

const LONG_PASTERN: Shape = {
  dorsal: [
    [0.11, 0.168],
    [0.24, 0.158],
    [0.4, 0.168],
    [0.56, 0.194],
    [0.68, 0.228],
    [0.742, 0.248],
    [0.787, 0.236],
  ],
  palmar: [
    [0.11, 0.172],
    [0.22, 0.16],
    [0.36, 0.168],
    [0.52, 0.194],
    [0.64, 0.229],
    [0.725, 0.264],
    [0.79, 0.262],
  ],
  cup: [0.88, 0.82],
};

/** The hollow of P1 for the cannon bone, in shares of P1. */
const FETLOCK_CUP = 0.27;

/** The half of the rounded end that belongs to one border, from its lowest point upwards. */
function halfOf(condyle: readonly XY[], dorsal: boolean): XY[] {
  const middle = Math.floor(condyle.length / 2);
  return dorsal ? condyle.slice(0, middle + 1).reverse() : condyle.slice(middle);
}

function pasternBone(
  context: DrawingContext,
  distal: XY,
  proximal: XY,
  radius: number,
  cupRadius: number,
  shape: Shape,
  part: string,
): GroupNode | null {
  const u = context.unit;
  const axis = direction(distal, proximal);
  if (!axis) return null;
  const size = distance(distal, proximal);
  // The dorsal side is the one that looks to the toe.
  const side = turned(axis);
  const front = side.x >= 0 ? side : { x: -side.x, y: -side.y };
  const place = (up: number, out: number): XY => plus(plus(distal, axis, up * size), front, out * size);
  const polar = (centre: XY, r: number, angle: number): XY =>
    plus(plus(centre, front, r * Math.cos(angle)), axis, r * Math.sin(angle));

  // The template's flanks are drawn for its own condyle; a larger or smaller one carries them along near it.
  const usual = shape === SHORT_PASTERN ? 0.37 : 0.173;
  const flank = (rows: readonly (readonly [number, number])[], sign: 1 | -1): XY[] =>
    rows.map(([up, out]) => {
      const ease = Math.max(0, 1 - up / 0.5);
      return place(up, sign * out * (1 + (radius / size / usual - 1) * ease));
    });
  const dorsal = flank(shape.dorsal, 1);
  const palmar = flank(shape.palmar, -1);
  const condyle: XY[] = [];
  for (let i = 0; i <= 10; i += 1) condyle.push(polar(distal, radius, 0.12 + ((-Math.PI - 0.24) * i) / 10));
  const cup: XY[] = [];
  const [cupFront, cupBack] = shape.cup;
  for (let i = 0; i <= 8; i += 1) {
    const angle = -Math.PI + cupBack + ((Math.PI - cupFront - cupBack) * i) / 8;
    cup.push(polar(proximal, cupRadius, angle));
  }
  const knots: Knot[] = [
    ...condyle,
    ...palmar,
    corner(cup[0]!),
    ...cup.slice(1, -1),
    corner(cup[cup.length - 1]!),
    ...[...dorsal].reverse(),
  ];
  const line = smooth(knots, true);
  const dorsalChain = flatten(smooth([...halfOf(condyle, true), ...dorsal], false));
  const palmarChain = flatten(smooth([...halfOf(condyle, false), ...palmar], false));
  const polygon = flatten(line);
  const tone: Tone = (across, lengthwise, p) => (inside(polygon, p) ? ROUNDED(across, lengthwise, p) : 0);
  const middle = dorsalChain[Math.floor(dorsalChain.length / 2)]!;
  const width = distance(middle, palmarChain[Math.floor(palmarChain.length / 2)]!);
  const marks: SceneNode[] = [
    body(line, part),
    engraved(
      hatchBetween(
        dorsalChain,
        palmarChain,
        context.bare ? 0 : width / (1.3 * u),
        WEIGHT.hatch * 1.3 * u,
        tone,
        part.length,
      ),
      part,
    ),
    innerLine(
      smooth(
        cup.slice(1, -1).map((p) => plus(p, direction(proximal, p) ?? axis, 1.6 * u)),
        false,
      ),
      u,
      part,
    ),
    innerLine(
      smooth(
        condyle.slice(1, -1).map((p) => plus(p, direction(p, distal) ?? axis, 1.5 * u)),
        false,
      ),
      u,
      part,
    ),
    outline(line, context, part),
  ];
  return group(['bone'], marks, { part, layer: 'bones' });
}

/** Only the lower end of the cannon bone is known by its centre: it is hinted at, and fades. */
export function cannonEnd(context: DrawingContext): GroupNode | null {
  const ends = all(context, 'pastern.centre', 'fetlock.centre');
  if (!ends) return null;
  const [pastern, fetlock] = ends;
  const axis = direction(pastern, fetlock);
  if (!axis) return null;
  const radius = distance(pastern, fetlock) * FETLOCK_CUP - JOINT_GAP * context.unit;
  if (radius < 3 * context.unit) return null;
  const mid = Math.atan2(-axis.y, -axis.x);
  const arc = round(fetlock, radius, mid - 1.9, mid + 1.9, 40);
  const tones = arc.map((_p, i) => Math.sin((Math.PI * (i + 0.6)) / 41.2));
  return group(['bone', 'hint'], [engraved(swelling(arc, tones, WEIGHT.outline * context.unit), 'cannon')], {
    part: 'cannon',
    layer: 'bones',
  });
}

export function longPastern(context: DrawingContext): GroupNode | null {
  const ends = all(context, 'pastern.centre', 'fetlock.centre');
  if (!ends) return null;
  const cup = distance(ends[0], ends[1]) * FETLOCK_CUP;
  return pasternBone(context, ends[0], ends[1], pasternRadius(context), cup, LONG_PASTERN, 'p1');
}

export function shortPastern(context: DrawingContext): GroupNode | null {
  const ends = all(context, 'coffin.centre', 'pastern.centre');
  if (!ends) return null;
  const cup = pasternRadius(context) + JOINT_GAP * context.unit;
  return pasternBone(context, ends[0], ends[1], coffinRadius(context), cup, SHORT_PASTERN, 'p2');
}
