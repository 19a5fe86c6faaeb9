import { coffinRadius } from './bones.ts';
import { flatten, smooth, type Knot } from './curve.ts';
import { between, direction, distance, dot, minus, plus, turned } from './frame.ts';
import { beside, chance, stipple, swelling } from './hatch.ts';
import type { GroupNode, Point, SceneNode, Segment } from './scene.ts';
import { group } from './scene.ts';
import { all, WEIGHT, type Sheet } from './sheet.ts';

/** The deep flexor tendon: down behind the pastern, round the navicular bone, to the solar surface of P3. */
function deepFlexor(sheet: Sheet): GroupNode | null {
  const bones = all(sheet, 'navicular.upper', 'navicular.lower', 'p3.tip', 'p3.wing');
  if (!bones) return null;
  const [upper, lower, tip, wing] = bones;
  const u = sheet.unit;
  const axis = direction(lower, upper);
  const margin = direction(wing, tip);
  if (!axis || !margin) return null;
  const coffin = sheet.at('coffin.centre');
  const middle = between(upper, lower, 0.5);
  const palmarSide = turned(axis);
  const toToe = coffin ? minus(coffin, middle) : { x: 1, y: 0.5 };
  const back = dot(palmarSide, toToe) < 0 ? palmarSide : { x: -palmarSide.x, y: -palmarSide.y };
  const size = distance(upper, lower);
  const up = turned(margin).y >= 0 ? turned(margin) : turned(turned(turned(margin)));

  const knots: Knot[] = [];
  const pastern = sheet.at('pastern.centre');
  const p2 = coffin && pastern ? direction(coffin, pastern) : null;
  if (coffin && pastern && p2) {
    const behind = turned(p2).x < 0 ? turned(p2) : { x: -turned(p2).x, y: -turned(p2).y };
    const long = distance(coffin, pastern);
    const fetlock = sheet.at('fetlock.centre');
    const p1 = fetlock ? direction(pastern, fetlock) : null;
    if (fetlock && p1) {
      const behind1 = turned(p1).x < 0 ? turned(p1) : { x: -turned(p1).x, y: -turned(p1).y };
      const long1 = distance(pastern, fetlock);
      knots.push(plus(plus(pastern, p1, long1 * 0.92), behind1, long1 * 0.4));
      knots.push(plus(plus(pastern, p1, long1 * 0.45), behind1, long1 * 0.28));
    }
    knots.push(plus(plus(coffin, p2, long * 0.98), behind, long * 0.6));
    knots.push(plus(plus(coffin, p2, long * 0.52), behind, Math.max(long * 0.53, coffinRadius(sheet) * 1.4)));
  } else {
    knots.push(plus(plus(upper, axis, size * 0.9), back, size * 0.62));
  }
  knots.push(plus(between(upper, lower, 0.1), back, size * 0.4));
  knots.push(plus(between(upper, lower, 0.68), back, size * 0.42));
  const joint = sheet.at('p3.navicular') ?? lower;
  // It fastens to the under side of P3, a little before the joint with the navicular bone.
  const into = plus(joint, margin, 5 * u);
  const rise = dot(minus(into, tip), up);
  knots.push(plus(into, up, -Math.max(rise * 0.6, 2 * u)));
  const spine = flatten(smooth(knots, false), 8);
  const strands: Segment[] = [];
  const count = 6;
  const left = direction(spine[0]!, spine[1]!);
  const sign = left && turned(left).x > 0 ? -1 : 1;
  for (let i = 0; i < count; i += 1) {
    const fan = spine.map((p, k) => {
      const t = k / (spine.length - 1);
      const gap = (0.95 + 0.5 * Math.max(0, t - 0.75) - 0.25 * Math.sin(Math.PI * t)) * u;
      const chain = beside(spine, sign * gap * i);
      return chain[k] ?? p;
    });
    const skip = Math.floor(chance(43, i) * 5);
    const tones = fan.map((_p, k) => {
      const t = (k - skip) / (fan.length - 1);
      if (t < 0) return 0;
      const edgeLine = i === 0 || i === count - 1 ? 0.9 : 0.5;
      return Math.min(1, t * 4 + 0.07) * edgeLine * (0.75 + 0.25 * Math.sin(t * 23 + i * 2.1));
    });
    strands.push(...swelling(fan, tones, WEIGHT.strand * u));
  }
  return group(
    ['tendon'],
    [{ kind: 'path', segments: strands, classes: ['strand'], data: { part: 'flexor' } }],
    { part: 'flexor', layer: 'soft' },
  );
}

/** The digital cushion: an airy stipple between the tendon, the heel and the sole, never an edge. */
function cushion(sheet: Sheet): GroupNode | null {
  const corners = all(sheet, 'navicular.lower', 'p3.wing', 'coronet.heel', 'heel.upper', 'sole.heel');
  if (!corners) return null;
  const [navicular, wing, hair, heel, soleHeel] = corners;
  const u = sheet.unit;
  const top = between(navicular, hair, 0.42);
  const region: Point[] = [
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

export function drawSoft(sheet: Sheet): SceneNode[] {
  return [cushion(sheet), deepFlexor(sheet)].filter((part) => part !== null);
}

