import { between, cross, direction, distance, dot, minus, type XY } from '../../geometry/vector.ts';
import { flatten, straight } from '../curve.ts';
import { inside } from '../hatch.ts';
import type { PathNode, SceneNode, PathSegment } from '../scene.ts';

/** What a cut takes of the drawn foot, in the foot's own frame: what lies below the new ground and before the new wall. */
export interface Goes {
  /** The new ground, on two planes both: what lies below one of them goes. */
  readonly grounds: readonly NewGround[];
  /** Horn that goes above the new ground: wall that is brought back. */
  readonly regions: readonly (readonly XY[])[];
}

/** A line with the foot on its left. */
export interface NewGround {
  readonly from: XY;
  readonly along: XY;
}

/** The new ground from heel to toe; null where its ends are one place. */
export function newGround(heel: XY, toe: XY): NewGround | null {
  const way = direction(heel, toe);
  if (!way) return null;
  return { from: heel, along: way.x < 0 ? { x: -way.x, y: -way.y } : way };
}

export function heightAbove({ from, along }: NewGround, p: XY): number {
  return cross(along, minus(p, from));
}

/** How far inside a region a contour that runs along its border still counts as in it, in millimetres of the foot. */
const SLACK = 0.9;

/** Ink of the horn once a cut is laid over it: contours that go are dashed, the texture of what goes is left out. */
export function parted(nodes: readonly SceneNode[], goes: Goes, unit: number): SceneNode[] {
  return nodes.flatMap((node): SceneNode[] => {
    switch (node.kind) {
      case 'group':
        return [{ ...node, children: parted(node.children, goes, unit) }];
      case 'dots': {
        const points = node.points.filter((p) => !taken(goes, p, 0));
        return points.length > 0 ? [{ ...node, points }] : [];
      }
      case 'path':
        return node.weight === undefined ? texture(node, goes) : contour(node, goes, unit);
      default:
        return [node];
    }
  });
}

function taken(goes: Goes, p: XY, slack: number): boolean {
  if (goes.grounds.some((ground) => heightAbove(ground, p) < -1e-6)) return true;
  return goes.regions.some((region) => inside(region, p) || (slack > 0 && onBorder(region, p, slack)));
}

function onBorder(region: readonly XY[], p: XY, slack: number): boolean {
  return region.some((a, i) => {
    const b = region[(i + 1) % region.length]!;
    const long = distance(a, b);
    const share = long > 0 ? Math.min(Math.max(dot(minus(p, a), minus(b, a)) / (long * long), 0), 1) : 0;
    return distance(p, between(a, b, share)) < slack;
  });
}

/** The chains of a path, each from one start to the next. */
function chains(segments: readonly PathSegment[]): XY[][] {
  const all: PathSegment[][] = [];
  for (const s of segments) {
    if (s[0] === 'M') all.push([]);
    all.at(-1)?.push(s);
  }
  return all.map((own) => {
    const points = flatten(own, 16);
    const [first] = points;
    return first && own.at(-1)?.[0] === 'Z' ? [...points, first] : points;
  });
}

/** Steps short enough that the change from standing to going falls where it belongs. */
function fine(chain: readonly XY[], step: number): XY[] {
  return chain.flatMap((p, i) => {
    const next = chain[i + 1];
    if (!next) return [p];
    const parts = Math.min(Math.max(Math.ceil(distance(p, next) / step), 1), 400);
    return Array.from({ length: parts }, (_none, k) => between(p, next, k / parts));
  });
}

function contour(node: PathNode, goes: Goes, unit: number): SceneNode[] {
  const pieces: { readonly gone: boolean; readonly points: XY[] }[] = [];
  for (const chain of chains(node.segments)) {
    let last: (typeof pieces)[number] | undefined;
    for (const p of fine(chain, 0.4 * unit)) {
      const gone = taken(goes, p, SLACK * unit);
      if (last?.gone === gone) last.points.push(p);
      else {
        const before = last?.points.at(-1);
        last = { gone, points: before ? [before, p] : [p] };
        pieces.push(last);
      }
    }
  }
  if (!pieces.some(({ gone }) => gone)) return [node];
  return (
    pieces
      .filter(({ points }) => points.length > 1)
      // The old bearing edge lies on the old ground, which is dashed itself.
      .filter(({ gone }) => !gone || node.data?.part !== 'wall.ground')
      .map(({ gone, points }) =>
        gone
          ? {
              ...node,
              segments: straight(points),
              weight: (node.weight ?? unit) * 0.62,
              dash: [1.7 * unit, 1.3 * unit],
              classes: [...(node.classes ?? []).filter((name) => name !== 'contour'), 'goes'],
            }
          : { ...node, segments: straight(points) },
      )
  );
}

/** Engraved lines are shapes: those that cross the new ground are cut off at it. */
function texture(node: PathNode, goes: Goes): SceneNode[] {
  const segments = chains(node.segments).flatMap((ring) => {
    const middle = ring[Math.floor(ring.length / 2)];
    if (!middle || goes.regions.some((region) => inside(region, middle))) return [];
    const kept = goes.grounds.reduce(
      (left, ground) => (left.some((p) => heightAbove(ground, p) < 0) ? clipped(left, ground) : left),
      ring,
    );
    return kept.length > 2 ? straight(kept, true) : [];
  });
  return segments.length > 1 ? [{ ...node, segments }] : [];
}

function clipped(ring: readonly XY[], ground: NewGround): XY[] {
  return ring.flatMap((p, i) => {
    const next = ring[(i + 1) % ring.length]!;
    const a = heightAbove(ground, p);
    const b = heightAbove(ground, next);
    const kept = a >= 0 ? [p] : [];
    return a >= 0 === b >= 0 ? kept : [...kept, between(p, next, a / (a - b))];
  });
}
