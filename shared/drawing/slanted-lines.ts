import type { PathSegment } from './scene.ts';

/** Pixels between two of them. */
const GAP = 7;

/** Fine slanted lines that fill a box, rising to the right. */
export function slantedLines(left: number, right: number, top: number, bottom: number): PathSegment[] {
  const high = bottom - top;
  const segments: PathSegment[] = [];
  for (let x = left - high + GAP; x < right; x += GAP) {
    const from = Math.max(x, left);
    const to = Math.min(x + high, right);
    segments.push(['M', from, bottom - (from - x)], ['L', to, bottom - (to - x)]);
  }
  return segments;
}
