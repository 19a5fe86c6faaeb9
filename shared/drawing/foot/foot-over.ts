import { fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import { intoFrame } from '../../geometry/foot-axes.ts';
import { distance, type XY } from '../../geometry/vector.ts';
import { nodeOntoImage } from '../carried.ts';
import type { LandmarkPositions } from '../places.ts';
import { sound } from '../sound.ts';
import { drawBones } from './bones.ts';
import { drawCapsule } from './capsule.ts';
import { flatten } from '../curve.ts';
import type { LetterWish } from '../plate/cut-letters.ts';
import { hatchInside } from '../hatch.ts';
import { group, type GroupNode, type PathNode, type SceneNode } from '../scene.ts';
import { drawingContext, WEIGHT, type DrawingContext, type StandingLines } from '../drawing-context.ts';

/** Another foot laid over this one: places on this picture, in its pixels, already aligned. */
export interface FootOver extends StandingLines {
  /** `A normal foot of this size`, `Left fore, 2026-03-03`. */
  readonly words: string;
  readonly placed: LandmarkPositions;
  /** Without the largest distance and the name of its landmark, for those who do not know them. */
  readonly unlettered?: true;
}

export interface OverDrawn {
  readonly nodes: readonly SceneNode[];
  readonly letters: readonly LetterWish[];
}

/** Contours that are compared: what lies between the two is hatched. */
const compared = new Set(['p3', 'wall.dorsal', 'wall.heel', 'sole']);
const outlined = new Set([...compared, 'p1', 'p2', 'navicular', 'hairline', 'wall.ground']);

/** Places that mean the same spot in every foot. Two points anywhere on a straight part of a wall do not. */
const sameSpot = new Set([
  'p3.tip',
  'p3.wing',
  'p3.extensor',
  'p3.navicular',
  'navicular.upper',
  'navicular.lower',
  'wall.top',
  'coronet.dorsal',
  'coronet.heel',
  'toe.ground',
  'heel.ground',
  'breakover',
  'sole.tip',
  'sole.wing',
  'sole.heel',
]);

/** The dashed contours of the other foot, what lies between, and the largest distance in words. */
export function drawOver(
  context: DrawingContext,
  own: LandmarkPositions,
  over: FootOver,
  mmPerPx: number | null,
): OverDrawn {
  const other = drawingContext(over.placed, over, { unit: context.unit, onPicture: context.onPicture });
  const contours = (on: DrawingContext, carry: (node: SceneNode) => SceneNode): Map<string, PathNode> =>
    new Map(
      [...drawCapsule(on), ...drawBones(on)]
        .flatMap(paths)
        .filter((path) => path.weight !== undefined && outlined.has(path.data?.part ?? ''))
        .map((path) => [path.data?.part ?? '', carry(path) as PathNode]),
    );
  const theirs = contours(other, (node) => nodeOntoImage(other.axes, node));
  const mine = contours(context, (node) => nodeOntoImage(context.axes, node));
  const u = context.unit;
  const hatches = [...compared].flatMap((part): PathNode[] => {
    const a = mine.get(part);
    const b = theirs.get(part);
    if (!a || !b) return [];
    const outline = between(flatten(a.segments), flatten(b.segments), part === 'p3');
    const segments = hatchInside(outline, slant, 1.5 * u, WEIGHT.hatch * 0.8 * u, () => 0.75, 5);
    return segments.length > 0 ? [{ kind: 'path', segments, classes: ['over-hatch'], data: { part } }] : [];
  });
  const lines = [...theirs.values()].map((path): PathNode => ({
    kind: 'path',
    segments: path.segments,
    weight: 0.5 * u,
    dash: [2.6 * u, 1.8 * u],
    classes: ['over-line'],
    halo: 'always',
    ...(path.data && { data: path.data }),
  }));
  const far = farthest(own, over.placed);
  return {
    nodes: [
      withTitle(group(['over', ...(context.onPicture ? ['film'] : [])], sound([...hatches, ...lines])), over.words),
    ],
    letters: far && mmPerPx !== null && !over.unlettered ? [letter(context, far, mmPerPx)] : [],
  };
}

/** Fine lines from the lower left to the upper right, on the picture. */
const slant: XY = { x: Math.SQRT1_2, y: -Math.SQRT1_2 };

function paths(node: SceneNode): PathNode[] {
  if (node.kind === 'group') return node.children.flatMap(paths);
  return node.kind === 'path' ? [node] : [];
}

/** One outline of all that is in one of two shapes and not in both: the even-odd rule leaves the rest out. */
function between(a: readonly XY[], b: readonly XY[], closed: boolean): XY[] {
  const [startA] = a;
  const [startB] = b;
  if (!startA || !startB) return [];
  return closed ? [...a, startA, startB, ...[...b].reverse(), startB, startA] : [...a, ...[...b].reverse()];
}

interface Farthest {
  readonly name: string;
  readonly own: XY;
  readonly other: XY;
  readonly apart: number;
}

/** The landmark of capsule or pedal bone that lies furthest from its like. */
function farthest(own: LandmarkPositions, other: LandmarkPositions): Farthest | null {
  let most: Farthest | null = null;
  for (const [name, p] of own) {
    const q = other.get(name);
    if (!q || !sameSpot.has(name)) continue;
    const apart = distance(p, q);
    if (!most || apart > most.apart) most = { name, own: p, other: q, apart };
  }
  return most;
}

function letter(context: DrawingContext, { name, own, other, apart }: Farthest, mmPerPx: number): LetterWish {
  const at = intoFrame(context.axes, own);
  const away = intoFrame(context.axes, other);
  const out = { x: at.x - away.x, y: at.y - away.y };
  return {
    part: 'over.farthest',
    text: t('{0} {1} mm apart', name, fixed(apart * mmPerPx, 1)),
    at,
    ways: [out, { x: -1, y: -0.3 }, { x: 1, y: -0.3 }, { x: 0, y: -1 }, { x: 0, y: 1 }],
    to: at,
  };
}

function withTitle(node: GroupNode, title: string): GroupNode {
  return { ...node, title };
}
