import type { Tone } from '../hatch.ts';
import type { PathNode, PathSegment } from '../scene.ts';
import { contourWeight, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** Width of a joint as a film shows it, in millimetres. */
export const JOINT_GAP = 1.5;

/** Light comes from before and above the foot; the palmar side lies in shade, with a glimmer at its very edge. */
export const ROUNDED: Tone = (across, lengthwise) => {
  const dorsal = Math.max(0, 0.3 - across * 2.2);
  const palmar = Math.max(0, (across - 0.34) / 0.5) ** 1.3;
  const edge = across > 0.93 ? 0.7 : 1;
  const ends = 0.72 + 0.28 * Math.cos((lengthwise - 0.5) * Math.PI * 1.2);
  return Math.min(1, dorsal + palmar * edge) * ends;
};

export function outline(segments: readonly PathSegment[], context: DrawingContext, part: string): PathNode {
  return {
    kind: 'path',
    segments,
    weight: contourWeight(context),
    classes: ['outline', 'contour'],
    halo: 'film',
    data: { part },
  };
}

export function body(segments: readonly PathSegment[], part: string): PathNode {
  return { kind: 'path', segments, classes: ['bone-body'], data: { part } };
}

export function engraved(segments: readonly PathSegment[], part: string): PathNode {
  return { kind: 'path', segments, classes: ['hatch'], data: { part } };
}

export function innerLine(segments: readonly PathSegment[], unit: number, part: string): PathNode {
  return { kind: 'path', segments, weight: WEIGHT.inner * unit, classes: ['inner'], data: { part } };
}
