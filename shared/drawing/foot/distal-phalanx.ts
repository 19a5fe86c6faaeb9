import { between, direction, distance, dot, minus, plus, turned, type XY } from '../../geometry/vector.ts';
import { body, engraved, innerLine, JOINT_GAP, outline } from './bone-ink.ts';
import { corner, flatten, smooth, type Knot } from '../curve.ts';
import { hatchBetween, inside, type Tone } from '../hatch.ts';
import { coffinRadius } from './joint-radii.ts';
import { group, type GroupNode, type SceneNode } from '../scene.ts';
import { all, some, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** The angle from one direction to another the short way round, in (-pi, pi]. */
function turnBetween(from: number, to: number): number {
  let turn = (to - from) % (2 * Math.PI);
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn <= -Math.PI) turn += 2 * Math.PI;
  return turn;
}

/** The hollow of P3 for P2: round the coffin joint, drawn from the extensor process to the navicular end. */
function hollow(context: DrawingContext, extensor: XY, body3: XY): XY[] {
  const centre = context.at('coffin.centre');
  const navicular = context.at('p3.navicular');
  if (!centre || distance(centre, extensor) < context.unit) return [];
  const from = Math.atan2(extensor.y - centre.y, extensor.x - centre.x);
  const toBody = Math.atan2(body3.y - centre.y, body3.x - centre.x);
  const way = Math.sign(turnBetween(from, toBody)) || 1;
  const r0 = distance(centre, extensor);
  let sweep = way * 1.75;
  let r1 = r0;
  if (navicular && distance(centre, navicular) > context.unit) {
    sweep = turnBetween(from, Math.atan2(navicular.y - centre.y, navicular.x - centre.x));
    // Round the lower side, never through the bone above.
    if (Math.sign(sweep) !== way && Math.abs(sweep) > 0.3) sweep += way * 2 * Math.PI;
    r1 = distance(centre, navicular);
  }
  const floor = coffinRadius(context) + JOINT_GAP * context.unit;
  const points: XY[] = [];
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

/** The dense flexor side of the bone's body, from the navicular joint towards the tip. */
function flexorCortex(tip: XY, navicular: XY | undefined, up: XY, u: number): XY[] | null {
  if (!navicular || distance(tip, navicular) < 10 * u) return null;
  const sag = Math.min(1.8 * u, distance(tip, navicular) * 0.04);
  return [0, 0.3, 0.6, 0.86].map((share) => plus(between(navicular, tip, share), up, -sag * Math.sin(Math.PI * share)));
}

function below(p: XY, chain: readonly XY[], up: XY): number {
  const from = chain[0]!;
  const to = chain[chain.length - 1]!;
  const way = direction(from, to);
  if (!way) return 0;
  const out = turned(way);
  const sign = dot(out, up) >= 0 ? -1 : 1;
  return sign * dot(out, minus(p, from));
}

function sheetUp(sole: XY): XY {
  const up = turned(sole);
  return up.y >= 0 ? up : { x: -up.x, y: -up.y };
}

function nearness(p: XY, chain: readonly XY[], reach: number): number {
  let near = Infinity;
  for (const q of chain) near = Math.min(near, distance(p, q));
  return Math.max(0, 1 - near / reach);
}

/** P3: as whole as its landmarks allow, from the solar margin line up to the full outline. */
export function distalPhalanx(context: DrawingContext): GroupNode | null {
  const u = context.unit;
  const margin = all(context, 'p3.tip', 'p3.wing');
  if (!margin) return null;
  const [tip, wing] = margin;
  const sole = direction(tip, wing);
  if (!sole) return null;
  const extensor = context.at('p3.extensor');
  const solar = { part: 'p3', layer: 'bones' } as const;
  if (!extensor) {
    const line = smooth([tip, plus(between(tip, wing, 0.5), sheetUp(sole), 1.2 * u), wing], false);
    return group(['bone'], [outline(line, context, 'p3.margin')], solar);
  }
  const up = dot(turned(sole), minus(extensor, tip)) >= 0 ? turned(sole) : turned(turned(turned(sole)));
  const height = Math.max(dot(minus(extensor, tip), up), 1 * u);
  const faces = some(context, 'p3.dorsal.lower', 'p3.dorsal.upper').filter((p) => distance(p, tip) > 2 * u);
  const face = direction(tip, faces[0] ?? extensor) ?? up;
  const outward = turned(face);
  const dorsalOut = dot(outward, minus(tip, wing)) >= 0 ? outward : { x: -outward.x, y: -outward.y };
  const bodyMiddle = between(between(tip, wing, 0.4), extensor, 0.3);
  const joint = hollow(context, extensor, bodyMiddle);
  const navicular = context.at('p3.navicular') ?? joint[joint.length - 1];
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
    palmar.push(plus(plus(wing, up, Math.min(3.4 * u, Math.max(rise * 0.25, 0.5 * u))), sole, 1.1 * u));
  } else {
    palmar.push(plus(between(extensor, wingTop, 0.45), up, -3 * u), wingTop);
  }
  const knots: Knot[] = [
    plus(plus(tip, face, 1.3 * u), sole, -0.1 * u),
    ...faces,
    // The process stands a little proud of the face, and is blunt.
    ...faces.slice(-1).map((top) => plus(between(top, extensor, 0.78), dorsalOut, 0.9 * u)),
    extensor,
    ...joint.slice(0, -1),
    ...palmar,
    wing,
    plus(plus(wing, sole, -3 * u), up, 0.25 * u),
    plus(between(wing, tip, 0.32), up, 1.6 * u),
    plus(between(wing, tip, 0.62), up, 1.7 * u),
    plus(plus(tip, sole, 2.2 * u), up, 0.2 * u),
    plus(tip, sole, 0.3 * u),
  ];
  const line = smooth(knots, true);
  const polygon = flatten(line);
  // Lines run out from the tip along the bone, as its own channels do: deepest above the margin and below the joint.
  const dorsalChain = flatten(smooth([tip, ...faces, extensor], false));
  const solarChain = flatten(smooth([tip, plus(between(tip, wing, 0.5), up, 1.7 * u), wing], false));
  const cortex = flexorCortex(tip, context.at('p3.navicular'), up, u);
  const tone: Tone = (across, lengthwise, p) => {
    if (!inside(polygon, p)) return 0;
    const face1 = Math.max(0, 0.15 - across) * 2.4;
    const underJoint = joint.length > 0 ? nearness(p, joint, 10 * u) * 0.75 : 0;
    // Below the flexor cortex only the two palmar processes stand, and they lie in shade.
    const processes = cortex ? Math.max(0, Math.min(1, below(p, cortex, up) / (4 * u))) * 0.36 : 0;
    const low = Math.max(0, across - 0.5) * 0.7;
    return Math.min(1, 0.13 + low + face1 + underJoint + processes) * Math.min(1, Math.max(0, lengthwise - 0.05) * 2.1);
  };
  const lines = context.bare ? 0 : Math.max(distance(extensor, wing) / (1.75 * u), 6);
  const marks: SceneNode[] = [
    body(line, 'p3'),
    engraved(hatchBetween(dorsalChain, solarChain, lines, WEIGHT.hatch * 1.3 * u, tone, 3), 'p3'),
  ];
  if (joint.length > 3) {
    const centre = context.at('coffin.centre')!;
    const plate = joint.slice(0, -1).map((p) => plus(p, direction(centre, p) ?? up, 1.5 * u));
    marks.push(innerLine(smooth(plate, false), u, 'p3.joint'));
  }
  if (cortex) marks.push(innerLine(smooth(cortex, false), u, 'p3.cortex'));
  marks.push(outline(line, context, 'p3'));
  return group(['bone'], marks, solar);
}
