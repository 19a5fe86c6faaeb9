import { between, direction, distance, plus } from '../../geometry/vector.ts';
import { along, flatten, smooth } from '../curve.ts';
import { chance, swelling } from '../hatch.ts';
import { edge, hairline } from './horn-ink.ts';
import { group, type GroupNode, type PathSegment } from '../scene.ts';
import { all, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** The hairline with the hair that falls over it. */
export function coronet(context: DrawingContext): GroupNode | null {
  const ends = all(context, 'coronet.dorsal', 'coronet.heel');
  if (!ends) return null;
  const u = context.unit;
  const [cd, ch] = ends;
  const chain = hairline(cd, ch, u);
  const way = direction(ch, cd);
  if (!way) return null;
  const hairs: PathSegment[] = [];
  const count = context.bare ? 0 : Math.min(Math.max(Math.round(distance(cd, ch) / (0.8 * u)), 8), 150);
  for (let i = 0; i < count; i += 1) {
    const share = (i + 0.5 + (chance(29, i) - 0.5) * 0.9) / count;
    // Over a film the hair keeps to the two edges, where nothing lies behind it.
    if (context.onPicture && share > 0.14 && share < 0.86) continue;
    const root = along(chain, share);
    const size = (4.5 + 3.5 * chance(31, i)) * u;
    // Hair lies down the pastern and turns a little forwards over the edge of the horn.
    const lean = 0.62 + 0.22 * (chance(37, i) - 0.5) - share * 0.2;
    const tip = plus(root, { x: 0.45, y: -1 }, (0.5 + 1.1 * chance(41, i)) * u);
    const start = plus(root, { x: -Math.sin(lean), y: Math.cos(lean) }, size);
    const bend = plus(between(root, start, 0.45), { x: 0.7, y: 0.3 }, u * 0.5);
    const points = flatten(smooth([start, bend, tip], false), 4);
    // Full where the skin is cut, thin where it passes before the bones.
    const rim = 0.3 + 0.7 * Math.min(1, Math.abs(share - 0.5) * 2) ** 2.2;
    const tones = points.map((_p, k) => 0.08 + rim * 0.8 * Math.sin((Math.PI * (k + 1)) / (points.length + 1)));
    hairs.push(...swelling(points, tones, WEIGHT.horn * 0.8 * u));
  }
  return group(
    ['horn-part', 'coronet'],
    [
      { kind: 'path', segments: hairs, classes: ['hair'], data: { part: 'coronet' } },
      edge(
        smooth(
          chain.filter((_p, i) => i % 6 === 0 || i === chain.length - 1),
          false,
        ),
        WEIGHT.inner * u,
        'hairline',
        ['hairline'],
      ),
    ],
    { part: 'coronet', layer: 'capsule' },
  );
}
