import type { XY } from '../../geometry/vector.ts';
import type { Box, PathNode, SceneNode } from '../scene.ts';

/** A straight piece of what is drawn. */
export type DrawnPiece = readonly [XY, XY];

/** The straight pieces of lines and paths, a curve as the chord from end to end in eight; of groups those within them. */
export function strokesOf(nodes: readonly SceneNode[]): DrawnPiece[] {
  return nodes.flatMap((node): DrawnPiece[] => {
    switch (node.kind) {
      case 'group':
        return strokesOf(node.children);
      case 'line':
        return [[node.from, node.to]];
      case 'path':
        return ofPath(node);
      default:
        return [];
    }
  });
}

const PIECES = 8;

function ofPath({ segments }: PathNode): DrawnPiece[] {
  const strokes: DrawnPiece[] = [];
  let [start, at]: XY[] = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ];
  const to = (next: XY): void => {
    strokes.push([at as XY, next]);
    at = next;
  };
  for (const segment of segments)
    switch (segment[0]) {
      case 'M':
        start = at = { x: segment[1], y: segment[2] };
        break;
      case 'L':
        to({ x: segment[1], y: segment[2] });
        break;
      case 'C': {
        const from = at as XY;
        for (let piece = 1; piece <= PIECES; piece++) to(onCurve(from, segment, piece / PIECES));
        break;
      }
      case 'Z':
        to(start as XY);
    }
  return strokes;
}

function onCurve(
  from: XY,
  [, ax, ay, bx, by, x, y]: readonly ['C', number, number, number, number, number, number],
  t: number,
): XY {
  const u = 1 - t;
  const of = (p: number, a: number, b: number, q: number): number =>
    u * u * u * p + 3 * u * u * t * a + 3 * u * t * t * b + t * t * t * q;
  return { x: of(from.x, ax, bx, x), y: of(from.y, ay, by, y) };
}

/** Whether a stroke runs through a box, by the clipping of Liang and Barsky (ACM Trans Graph 1984;3:1). */
export function runsThrough([a, b]: DrawnPiece, { x, y, width, height }: Box): boolean {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  let [from, until] = [0, 1];
  for (const [step, room] of [
    [-dx, a.x - x],
    [dx, x + width - a.x],
    [-dy, a.y - y],
    [dy, y + height - a.y],
  ] as const) {
    if (step === 0) {
      if (room < 0) return false;
      continue;
    }
    const share = room / step;
    if (step < 0) from = Math.max(from, share);
    else until = Math.min(until, share);
    if (from > until) return false;
  }
  return true;
}
