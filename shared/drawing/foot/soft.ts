import { between, direction, distance, dot, minus, plus, turned, type XY } from '../../geometry/vector.ts';
import { coffinRadius } from './joint-radii.ts';
import { flatten, smooth, type Knot } from '../curve.ts';
import { beside, chance, stipple, swelling } from '../hatch.ts';
import type { GroupNode, SceneNode, PathSegment } from '../scene.ts';
import { group } from '../scene.ts';
import { all, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** The deep flexor tendon: down behind the pastern, round the navicular bone, to the solar surface of P3. */
function deepFlexor(context: DrawingContext): GroupNode | null {
  const bones = all(context, 'navicular.upper', 'navicular.lower', 'p3.tip', 'p3.wing');
  if (!bones) return null;
  const [upper, lower, tip, wing] = bones;
  const u = context.unit;
  const axis = direction(lower, upper);
  const margin = direction(wing, tip);
  if (!axis || !margin) return null;
  const coffin = context.at('coffin.centre');
  const middle = between(upper, lower, 0.5);
  const palmarSide = turned(axis);
  const toToe = coffin ? minus(coffin, middle) : { x: 1, y: 0.5 };
  const back = dot(palmarSide, toToe) < 0 ? palmarSide : { x: -palmarSide.x, y: -palmarSide.y };
  const size = distance(upper, lower);
  const up = turned(margin).y >= 0 ? turned(margin) : turned(turned(turned(margin)));

  const knots: Knot[] = [];
  const pastern = context.at('pastern.centre');
  const p2 = coffin && pastern ? direction(coffin, pastern) : null;
  if (coffin && pastern && p2) {
    const behind = turned(p2).x < 0 ? turned(p2) : { x: -turned(p2).x, y: -turned(p2).y };
    const long = distance(coffin, pastern);
    const fetlock = context.at('fetlock.centre');
    const p1 = fetlock ? direction(pastern, fetlock) : null;
    if (fetlock && p1) {
      const behind1 = turned(p1).x < 0 ? turned(p1) : { x: -turned(p1).x, y: -turned(p1).y };
      const long1 = distance(pastern, fetlock);
      knots.push(plus(plus(pastern, p1, long1 * 0.95), behind1, long1 * 0.36));
      knots.push(plus(plus(pastern, p1, long1 * 0.5), behind1, long1 * 0.25));
    }
    knots.push(plus(plus(coffin, p2, long * 0.96), behind, long * 0.535));
    knots.push(plus(plus(coffin, p2, long * 0.52), behind, Math.max(long * 0.5, coffinRadius(context) * 1.33)));
  } else {
    knots.push(plus(plus(upper, axis, size * 0.9), back, size * 0.62));
  }
  knots.push(plus(between(upper, lower, 0.1), back, size * 0.4));
  knots.push(plus(between(upper, lower, 0.68), back, size * 0.42));
  const joint = context.at('p3.navicular') ?? lower;
  // It fastens to the under side of P3, a little before the joint with the navicular bone.
  const into = plus(joint, margin, 5 * u);
  const rise = dot(minus(into, tip), up);
  knots.push(plus(into, up, -Math.max(rise * 0.34, 1.5 * u)));
  const spine = flatten(smooth(knots, false), 8);
  if (spine.length < 2) return null;
  const strands: PathSegment[] = [];
  const count = 8;
  const left = direction(spine[0]!, spine[1]!);
  const sign = left && turned(left).x > 0 ? -1 : 1;
  const outer = beside(spine, sign * u);
  for (let i = 0; i < count; i += 1) {
    const fan = spine.map((p, k) => {
      const t = k / (spine.length - 1);
      // The strands draw together where they fasten.
      const gap = (1.02 - 0.16 * Math.sin(Math.PI * t)) * (1 - 0.6 * Math.max(0, (t - 0.82) / 0.18));
      return plus(p, minus(outer[k]!, p), gap * i);
    });
    const skip = Math.floor(chance(43, i) * 5);
    const tones = fan.map((_p, k) => {
      const t = (k - skip) / (fan.length - 1);
      if (t < 0) return 0;
      const edgeLine = i === 0 || i === count - 1 ? 0.95 : 0.32 + 0.3 * chance(53, i);
      const grain = i === 0 || i === count - 1 ? 1 : 0.8 + 0.2 * Math.sin(t * 19 + i * 2.1);
      return Math.min(1, t * 4 + 0.07) * edgeLine * grain;
    });
    strands.push(...swelling(fan, tones, WEIGHT.strand * u));
  }
  return group(['tendon'], [{ kind: 'path', segments: strands, classes: ['strand'], data: { part: 'flexor' } }], {
    part: 'flexor',
    layer: 'soft',
  });
}

/** The digital cushion: an airy stipple between the tendon, the heel and the sole, never an edge. */
function cushion(context: DrawingContext): GroupNode | null {
  const corners = all(context, 'navicular.lower', 'p3.wing', 'coronet.heel', 'heel.upper', 'sole.heel');
  if (!corners) return null;
  const [navicular, wing, hair, heel, soleHeel] = corners;
  const u = context.unit;
  const top = between(navicular, hair, 0.42);
  const region: XY[] = [
    plus(navicular, { x: -1, y: -0.6 }, 5 * u),
    plus(top, { x: 0, y: -1 }, 3 * u),
    plus(between(hair, top, 0.2), { x: 0.2, y: -1 }, 5 * u),
    plus(heel, { x: 1, y: 0 }, 8 * u),
    plus(soleHeel, { x: 0.4, y: 1 }, 6 * u),
    plus(wing, { x: -1, y: -0.4 }, 3 * u),
  ];
  const outline = flatten(smooth(region, true), 6);
  const dots = stipple(outline, 2.3 * u, 0.5 * u, () => 0.55, 47);
  return group(['cushion'], dots, { part: 'cushion', layer: 'soft' });
}

/** The extensor tendon: down before the pastern to the process that bears its name. */
function extensorTendon(context: DrawingContext): GroupNode | null {
  const bones = all(context, 'p3.extensor', 'coffin.centre', 'pastern.centre');
  if (!bones) return null;
  const [process, coffin, pastern] = bones;
  const u = context.unit;
  const p2 = direction(coffin, pastern);
  if (!p2) return null;
  const long = distance(coffin, pastern);
  const before = (axis: XY): XY => (turned(axis).x >= 0 ? turned(axis) : turned(turned(turned(axis))));
  const knots: Knot[] = [];
  const fetlock = context.at('fetlock.centre');
  const p1 = fetlock ? direction(pastern, fetlock) : null;
  if (fetlock && p1) {
    const long1 = distance(pastern, fetlock);
    knots.push(plus(plus(pastern, p1, long1 * 0.8), before(p1), long1 * 0.275));
    knots.push(plus(plus(pastern, p1, long1 * 0.42), before(p1), long1 * 0.2));
  }
  knots.push(plus(plus(coffin, p2, long * 0.9), before(p2), long * 0.475));
  knots.push(plus(plus(coffin, p2, long * 0.45), before(p2), long * 0.43));
  knots.push(process);
  const spine = flatten(smooth(knots, false), 8);
  if (spine.length < 2) return null;
  const start = direction(spine[0]!, spine[1]!);
  const sign = start && turned(start).x < 0 ? -1 : 1;
  const outer = beside(spine, sign * u);
  const strands: PathSegment[] = [];
  for (let i = 0; i < 4; i += 1) {
    const line = spine.map((p, k) => {
      const t = k / (spine.length - 1);
      return plus(p, minus(outer[k]!, p), i * 0.8 * (1 - 0.55 * t ** 6));
    });
    const tones = line.map((_p, k) => {
      const t = k / (line.length - 1);
      return Math.min(1, t * 3 + 0.07 - 0.1 * chance(59, i)) * (i === 0 || i === 3 ? 0.6 : 0.38);
    });
    strands.push(...swelling(line, tones, WEIGHT.strand * u));
  }
  return group(['tendon'], [{ kind: 'path', segments: strands, classes: ['strand'], data: { part: 'extensor' } }], {
    part: 'extensor',
    layer: 'soft',
  });
}

/** The skin above the hairline, hinted at where there is no film to show it. */
function skin(context: DrawingContext): GroupNode | null {
  if (context.onPicture) return null;
  const joints = all(context, 'coffin.centre', 'pastern.centre');
  if (!joints) return null;
  const [coffin, pastern] = joints;
  const fetlock = context.at('fetlock.centre');
  const u = context.unit;
  const p2 = direction(coffin, pastern);
  const p1 = fetlock ? direction(pastern, fetlock) : p2;
  if (!p2 || !p1) return null;
  const long = distance(coffin, pastern);
  const long1 = fetlock ? distance(pastern, fetlock) : long;
  const side = (axis: XY, dorsal: boolean): XY =>
    turned(axis).x >= 0 === dorsal ? turned(axis) : turned(turned(turned(axis)));
  const lines: PathSegment[] = [];
  const draw = (knots: Knot[], seed: number): void => {
    const points = flatten(smooth(knots, false), 10);
    const tones = points.map((_p, k) => {
      const t = k / (points.length - 1);
      return Math.min(1, 1.15 - t) * (0.5 + 0.12 * Math.sin(t * 31 + seed));
    });
    lines.push(...swelling(points, tones, WEIGHT.outline * 0.9 * u));
  };
  const front = context.at('coronet.dorsal');
  if (front) {
    const at = (share: number, out: number): XY => plus(plus(pastern, p1, long1 * share), side(p1, true), long1 * out);
    draw(
      [
        front,
        plus(plus(coffin, p2, long * 0.78), side(p2, true), long * 0.66),
        ...(fetlock ? [at(0.4, 0.31), at(0.95, 0.38)] : []),
      ],
      1,
    );
  }
  const back = context.at('coronet.heel');
  if (back) {
    const at = (share: number, out: number): XY => plus(plus(pastern, p1, long1 * share), side(p1, false), long1 * out);
    draw(
      [back, plus(back, { x: 0.12, y: 1 }, 15 * u), ...(fetlock ? [at(0.3, 0.47), at(0.6, 0.46), at(0.9, 0.58)] : [])],
      2,
    );
  }
  if (lines.length === 0) return null;
  return group(['skin'], [{ kind: 'path', segments: lines, classes: ['strand'], data: { part: 'skin' } }], {
    part: 'skin',
    layer: 'soft',
  });
}

export function drawSoft(context: DrawingContext): SceneNode[] {
  return [skin(context), cushion(context), deepFlexor(context), extensorTendon(context)].filter(
    (part) => part !== null,
  );
}
