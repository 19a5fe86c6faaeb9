import { between, distance, plus, type XY } from '../../geometry/vector.ts';
import { flatten, smooth } from '../curve.ts';
import { swelling } from '../hatch.ts';
import type { PathNode, PathSegment } from '../scene.ts';
import { WEIGHT } from '../drawing-context.ts';

export function edge(segments: readonly PathSegment[], weight: number, part: string, classes = ['outline']): PathNode {
  return { kind: 'path', segments, weight, classes, halo: 'film', data: { part } };
}

export function texture(segments: readonly PathSegment[], part: string): PathNode {
  return { kind: 'path', segments, classes: ['horn'], data: { part } };
}

/** One short line, full at its start and gone at its end. */
export function fade(from: XY, to: XY, tone: number, u: number): PathSegment[] {
  const points: XY[] = [];
  const tones: number[] = [];
  for (let i = 0; i <= 5; i += 1) {
    points.push(between(from, to, i / 5));
    tones.push(Math.max(tone * (1 - i / 5.5), 0.07));
  }
  return swelling(points, tones, WEIGHT.horn * u);
}

export function hairline(cd: XY, ch: XY, u: number): XY[] {
  const sag = Math.min(2.2 * u, distance(cd, ch) * 0.05);
  return flatten(smooth([cd, plus(between(cd, ch, 0.5), { x: 0, y: -sag }), ch], false), 12);
}
