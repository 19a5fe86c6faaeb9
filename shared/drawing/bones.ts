import { corner, flatten, round, smooth, type Knot } from './curve.ts';
import { between, direction, distance, dot, minus, plus, turned } from './frame.ts';
import { hatchBetween, hatchInside, type Tone } from './hatch.ts';
import type { GroupNode, PathNode, Point, SceneNode, Segment } from './scene.ts';
import { group } from './scene.ts';
import { all, some, WEIGHT, type Sheet } from './sheet.ts';

const JOINT_GAP = 1.5;

/** Light comes from before and above the foot; the palmar side lies in shade, with a glimmer at its very edge. */
export const ROUNDED: Tone = (across, lengthwise) => {
  const dorsal = Math.max(0, 0.3 - across * 2.2);
  const palmar = Math.max(0, (across - 0.34) / 0.5) ** 1.3;
  const edge = across > 0.93 ? 0.7 : 1;
  const ends = 0.72 + 0.28 * Math.cos((lengthwise - 0.5) * Math.PI * 1.2);
  return Math.min(1, dorsal + palmar * edge) * ends;
};

function outline(segments: readonly Segment[], unit: number, part: string): PathNode {
  return {
    kind: 'path',
    segments,
    weight: WEIGHT.outline * unit,
    classes: ['outline'],
    halo: true,
    data: { part },
  };
}

function body(segments: readonly Segment[], part: string): PathNode {
  return { kind: 'path', segments, classes: ['bone-body'], data: { part } };
}

function engraved(segments: readonly Segment[], part: string): PathNode {
  return { kind: 'path', segments, classes: ['hatch'], data: { part } };
}

function innerLine(segments: readonly Segment[], unit: number, part: string): PathNode {
  return { kind: 'path', segments, weight: WEIGHT.inner * unit, classes: ['inner'], data: { part } };
}

/** The radius of the rounded lower end of P2: from the joint surface of P3 where it is placed, else by proportion. */
export function coffinRadius(sheet: Sheet): number {
  const centre = sheet.at('coffin.centre');
  const u = sheet.unit;
  const reach = centre
    ? some(sheet, 'p3.extensor', 'p3.navicular').map((p) => distance(p, centre) - JOINT_GAP * u)
    : [];
  const pastern = sheet.at('pastern.centre');
  const usual = centre && pastern ? distance(centre, pastern) * 0.37 : 16.5 * u;
  const nearest = reach.length > 0 ? Math.min(...reach) : usual;
  return Math.min(Math.max(nearest, usual * 0.72), usual * 1.25);
}

function pasternRadius(sheet: Sheet): number {
  const centres = all(sheet, 'coffin.centre', 'pastern.centre');
  if (centres) return distance(centres[0], centres[1]) * 0.3;
  const long = all(sheet, 'pastern.centre', 'fetlock.centre');
  return long ? distance(long[0], long[1]) * 0.173 : 13.5 * sheet.unit;
}

/** The angle from one direction to another the short way round, in (-pi, pi]. */
function turnBetween(from: number, to: number): number {
  let turn = (to - from) % (2 * Math.PI);
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn <= -Math.PI) turn += 2 * Math.PI;
  return turn;
}

/** The hollow of P3 for P2: round the coffin joint, drawn from the extensor process to the navicular end. */
function hollow(sheet: Sheet, extensor: Point, body3: Point): Point[] {
  const centre = sheet.at('coffin.centre');
  const navicular = sheet.at('p3.navicular');
  if (!centre || distance(centre, extensor) < sheet.unit) return [];
  const from = Math.atan2(extensor.y - centre.y, extensor.x - centre.x);
  const toBody = Math.atan2(body3.y - centre.y, body3.x - centre.x);
  const way = Math.sign(turnBetween(from, toBody)) || 1;
  const r0 = distance(centre, extensor);
  let sweep = way * 1.75;
  let r1 = r0;
  if (navicular && distance(centre, navicular) > sheet.unit) {
    sweep = turnBetween(from, Math.atan2(navicular.y - centre.y, navicular.x - centre.x));
    // Round the lower side, never through the bone above.
    if (Math.sign(sweep) !== way && Math.abs(sweep) > 0.3) sweep += way * 2 * Math.PI;
    r1 = distance(centre, navicular);
  }
  const floor = coffinRadius(sheet) + JOINT_GAP * sheet.unit;
  const points: Point[] = [];
  const count = 7;
  for (let i = 1; i <= count; i += 1) {
    const t = i / count;
    const angle = from + sweep * t;
    // The surface passes through both landmarks and keeps to the joint's own radius between them.
    const ends = r0 + (r1 - r0) * t;
    const radius = ends + (floor - ends) * Math.sin(Math.PI * t) ** 0.7;
    points.push({ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) });
  }
  return points;
}

/** P3: as whole as its landmarks allow, from the solar margin line up to the full outline. */
function distalPhalanx(sheet: Sheet): GroupNode | null {
  const u = sheet.unit;
  const margin = all(sheet, 'p3.tip', 'p3.wing');
  if (!margin) return null;
  const [tip, wing] = margin;
  const sole = direction(tip, wing);
  if (!sole) return null;
  const extensor = sheet.at('p3.extensor');
  const solar = { part: 'p3', layer: 'bones' } as const;
  if (!extensor) {
    const line = smooth([tip, plus(between(tip, wing, 0.5), sheetUp(sole), 1.2 * u), wing], false);
    return group(['bone'], [outline(line, u, 'p3.margin')], solar);
  }
  const up = dot(turned(sole), minus(extensor, tip)) >= 0 ? turned(sole) : turned(turned(turned(sole)));
  const height = Math.max(dot(minus(extensor, tip), up), 1 * u);
  const faces = some(sheet, 'p3.dorsal.lower', 'p3.dorsal.upper').filter((p) => distance(p, tip) > 2 * u);
  const face = direction(tip, faces[0] ?? extensor) ?? up;
  const bodyMiddle = between(between(tip, wing, 0.4), extensor, 0.3);
  const joint = hollow(sheet, extensor, bodyMiddle);
  const navicular = sheet.at('p3.navicular') ?? joint[joint.length - 1];
  const wingTop = plus(wing, up, Math.min(9 * u, height * 0.28));

  const palmar: Knot[] = [];
  if (navicular) {
    const rise = dot(minus(navicular, wing), up);
    const behind = dot(minus(wing, navicular), sole);
    // The palmar process: from the joint's edge down into a notch, then back along the process to its blunt end.
    const end = plus(wing, up, Math.min(9 * u, Math.max(rise * 0.5, u)));
    palmar.push(corner(navicular));
    if (behind > 2 * u) {
      const notch = plus(between(navicular, end, 0.42), up, -Math.min(3 * u, rise * 0.2));
      palmar.push(notch, plus(end, sole, -Math.min(4 * u, behind * 0.3)));
    }
    palmar.push(plus(plus(wing, up, Math.min(6 * u, Math.max(rise * 0.3, u))), sole, 0.8 * u));
  } else {
    palmar.push(plus(between(extensor, wingTop, 0.45), up, -3 * u), wingTop);
  }
  const knots: Knot[] = [
    plus(plus(tip, face, 1.3 * u), sole, -0.1 * u),
    ...faces,
    plus(between(faces[faces.length - 1] ?? tip, extensor, 0.72), up, -0.4 * u),
    extensor,
    ...joint.slice(0, -1),
    ...palmar,
    corner(wing),
    plus(between(wing, tip, 0.28), up, 1.5 * u),
    plus(between(wing, tip, 0.62), up, 1.7 * u),
    plus(plus(tip, sole, 2.2 * u), up, 0.2 * u),
    plus(tip, sole, 0.3 * u),
  ];
  const line = smooth(knots, true);
  const polygon = flatten(line);
  const long = direction(tip, navicular ?? between(extensor, wing, 0.5)) ?? sole;
  // Hatched along the bone's long axis; deepest above the solar margin and under the joint.
  const tone: Tone = (_across, _along, p) => {
    const fromSole = dot(minus(p, tip), up) / Math.max(height, u);
    const back = dot(minus(p, tip), sole) / Math.max(distance(tip, wing), u);
    const low = Math.max(0, 0.62 - fromSole * 2.1);
    const underJoint = joint.length > 0 ? nearness(p, joint, 9 * u) * 0.75 : 0;
    const process = Math.max(0, (back - 0.62) * 1.5);
    return Math.min(1, 0.1 + low + underJoint + process) * Math.min(1, 0.15 + back * 3.4);
  };
  const marks: SceneNode[] = [
    body(line, 'p3'),
    engraved(hatchInside(polygon, long, 1.28 * u, WEIGHT.hatch * 1.25 * u, tone, 3), 'p3'),
  ];
  if (joint.length > 3) {
    const centre = sheet.at('coffin.centre')!;
    const plate = joint
      .slice(0, -1)
      .map((p) => plus(p, direction(centre, p) ?? up, 1.5 * u));
    marks.push(innerLine(smooth(plate, false), u, 'p3.joint'));
  }
  marks.push(outline(line, u, 'p3'));
  return group(['bone'], marks, solar);
}

function sheetUp(sole: Point): Point {
  const up = turned(sole);
  return up.y >= 0 ? up : { x: -up.x, y: -up.y };
}

function nearness(p: Point, chain: readonly Point[], reach: number): number {
  let near = Infinity;
  for (const q of chain) near = Math.min(near, distance(p, q));
  return Math.max(0, 1 - near / reach);
}

/** A long pastern bone's side borders, in shares of its length: how far up, how far from the axis. */
interface Shape {
  readonly dorsal: readonly (readonly [number, number])[];
  readonly palmar: readonly (readonly [number, number])[];
  /** Where the upper joint surface starts and ends, as angles below the crosswise line, in radians. */
  readonly cup: readonly [number, number];
}

const SHORT_PASTERN: Shape = {
  dorsal: [
    [0.2, 0.345],
    [0.36, 0.335],
    [0.52, 0.36],
    [0.68, 0.425],
    [0.79, 0.45],
  ],
  palmar: [
    [0.18, 0.34],
    [0.36, 0.325],
    [0.54, 0.355],
    [0.7, 0.455],
    [0.8, 0.475],
    [0.865, 0.44],
  ],
  cup: [0.32, 0.26],
};

const LONG_PASTERN: Shape = {
  dorsal: [
    [0.12, 0.166],
    [0.26, 0.15],
    [0.44, 0.158],
    [0.62, 0.185],
    [0.78, 0.232],
    [0.87, 0.262],
  ],
  palmar: [
    [0.11, 0.17],
    [0.25, 0.142],
    [0.42, 0.145],
    [0.6, 0.172],
    [0.76, 0.225],
    [0.86, 0.277],
    [0.925, 0.28],
  ],
  cup: [0.5, 0.42],
};

function pasternBone(
  sheet: Sheet,
  distal: Point,
  proximal: Point,
  radius: number,
  cupRadius: number,
  shape: Shape,
  part: string,
): GroupNode | null {
  const u = sheet.unit;
  const axis = direction(distal, proximal);
  if (!axis) return null;
  const size = distance(distal, proximal);
  // The dorsal side is the one that looks to the toe.
  const side = turned(axis);
  const front = side.x >= 0 ? side : { x: -side.x, y: -side.y };
  const place = (up: number, out: number): Point => plus(plus(distal, axis, up * size), front, out * size);
  const polar = (centre: Point, r: number, angle: number): Point =>
    plus(plus(centre, front, r * Math.cos(angle)), axis, r * Math.sin(angle));

  // The template's flanks are drawn for its own condyle; a larger or smaller one carries them along near it.
  const usual = shape === SHORT_PASTERN ? 0.37 : 0.173;
  const flank = (rows: readonly (readonly [number, number])[], sign: 1 | -1): Point[] =>
    rows.map(([up, out]) => {
      const ease = Math.max(0, 1 - up / 0.5);
      return place(up, sign * out * (1 + (radius / size / usual - 1) * ease));
    });
  const dorsal = flank(shape.dorsal, 1);
  const palmar = flank(shape.palmar, -1);
  const condyle: Point[] = [];
  for (let i = 0; i <= 10; i += 1) condyle.push(polar(distal, radius, 0.12 + ((-Math.PI - 0.24) * i) / 10));
  const cup: Point[] = [];
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
  const dorsalChain = flatten(smooth([...round2(condyle, true), ...dorsal, cup[8]!], false));
  const palmarChain = flatten(smooth([...round2(condyle, false), ...palmar, cup[0]!], false));
  const middle = dorsalChain[Math.floor(dorsalChain.length / 2)]!;
  const width = distance(middle, palmarChain[Math.floor(palmarChain.length / 2)]!);
  const marks: SceneNode[] = [
    body(line, part),
    engraved(
      hatchBetween(dorsalChain, palmarChain, width / (1.3 * u), WEIGHT.hatch * 1.3 * u, ROUNDED, part.length),
      part,
    ),
    innerLine(smooth(cup.slice(1, -1).map((p) => plus(p, direction(proximal, p) ?? axis, 1.6 * u)), false), u, part),
    innerLine(
      smooth(condyle.slice(1, -1).map((p) => plus(p, direction(p, distal) ?? axis, 1.5 * u)), false),
      u,
      part,
    ),
    outline(line, u, part),
  ];
  return group(['bone'], marks, { part, layer: 'bones' });
}

/** The half of the rounded end that belongs to one border, from its lowest point upwards. */
function round2(condyle: readonly Point[], dorsal: boolean): Point[] {
  const middle = Math.floor(condyle.length / 2);
  return dorsal ? condyle.slice(0, middle + 1).reverse() : condyle.slice(middle);
}

function navicularBone(sheet: Sheet): GroupNode | null {
  const ends = all(sheet, 'navicular.upper', 'navicular.lower');
  if (!ends) return null;
  const [upper, lower] = ends;
  const axis = direction(lower, upper);
  if (!axis) return null;
  const u = sheet.unit;
  const size = distance(upper, lower);
  const middle = between(upper, lower, 0.5);
  const centre = sheet.at('coffin.centre') ?? sheet.at('p3.navicular');
  const toToe = centre ? minus(centre, middle) : { x: 1, y: 0.5 };
  const side = turned(axis);
  const joint = dot(side, toToe) >= 0 ? side : { x: -side.x, y: -side.y };
  const place = (up: number, out: number): Point => plus(plus(lower, axis, up * size), joint, out * size);
  const knots: Knot[] = [
    corner(lower),
    place(0.12, 0.16),
    place(0.45, 0.17),
    place(0.82, 0.2),
    place(0.97, 0.14),
    upper,
    place(0.93, -0.16),
    place(0.7, -0.29),
    place(0.42, -0.33),
    place(0.14, -0.22),
  ];
  const line = smooth(knots, true);
  const tone: Tone = (_a, _l, p) => 0.25 + 0.75 * Math.max(0, -dot(minus(p, middle), joint) / (0.3 * size));
  return group(
    ['bone'],
    [
      body(line, 'navicular'),
      engraved(hatchInside(flatten(line), axis, 1.15 * u, WEIGHT.hatch * 1.15 * u, tone, 5), 'navicular'),
      outline(line, u, 'navicular'),
    ],
    { part: 'navicular', layer: 'bones' },
  );
}

/** Only the lower end of the cannon bone is known by its centre: it is hinted at, and fades. */
function cannonEnd(sheet: Sheet): GroupNode | null {
  const ends = all(sheet, 'pastern.centre', 'fetlock.centre');
  if (!ends) return null;
  const [pastern, fetlock] = ends;
  const axis = direction(pastern, fetlock);
  if (!axis) return null;
  const radius = distance(pastern, fetlock) * 0.24 - JOINT_GAP * sheet.unit;
  if (radius < 3 * sheet.unit) return null;
  const mid = Math.atan2(-axis.y, -axis.x);
  const arc = round(fetlock, radius, mid - 1.75, mid + 1.75, 14);
  return group(
    ['bone', 'hint'],
    [{ kind: 'path', segments: smooth(arc, false), weight: WEIGHT.inner * 1.3 * sheet.unit, classes: ['outline'] }],
    { part: 'cannon', layer: 'bones' },
  );
}

export function drawBones(sheet: Sheet): SceneNode[] {
  const nodes: (GroupNode | null)[] = [];
  const u = sheet.unit;
  const pastern = all(sheet, 'pastern.centre', 'fetlock.centre');
  nodes.push(cannonEnd(sheet));
  if (pastern) {
    const cup = distance(pastern[0], pastern[1]) * 0.24;
    nodes.push(pasternBone(sheet, pastern[0], pastern[1], pasternRadius(sheet), cup, LONG_PASTERN, 'p1'));
  }
  const coffin = all(sheet, 'coffin.centre', 'pastern.centre');
  if (coffin) {
    const cup = pasternRadius(sheet) + JOINT_GAP * u;
    nodes.push(pasternBone(sheet, coffin[0], coffin[1], coffinRadius(sheet), cup, SHORT_PASTERN, 'p2'));
  }
  nodes.push(navicularBone(sheet), distalPhalanx(sheet));
  return nodes.filter((node) => node !== null);
}

