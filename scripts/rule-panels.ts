import { films } from '../examples/drawn/films.ts';
import type { LandmarkName } from '../examples/drawn/foot.ts';
import type { FootParameters } from '../examples/drawn/parameters.ts';
import { group, type PathSegment, type Scene, type SceneNode } from '../shared/drawing/scene.ts';
import { sceneToSvg } from '../shared/drawing/svg.ts';
import type { XY } from '../shared/geometry/vector.ts';

/** What the drawings of the rules are put together from. */

/** Pixels of one foot's share of a drawing, and pixels a millimetre. */
export const WIDE = 330;
export const HIGH = 200;
export const SCALE = 1.3;
export const LETTERS = 13;

export function ends(name: string): readonly [FootParameters, FootParameters] {
  const own = films.filter((film) => film.name.startsWith(`${name}-`)).map(({ parameters }) => parameters);
  const [first, last] = [own[0], own.at(-1)];
  if (!first || !last) throw new Error(`${name} has no drawn films`);
  return [first, last];
}

export function svg(title: string, description: string, nodes: readonly SceneNode[]): string {
  const high = Math.max(...nodes.flatMap((node) => (node.kind === 'text' ? node.at.y : lowest(node)))) + 16;
  const scene: Scene = {
    view: { x: 0, y: 0, width: 2 * WIDE, height: Math.ceil(high) },
    title,
    description,
    unit: SCALE,
    onPicture: false,
    ghost: false,
    layers: [group([], nodes)],
    labelBoxes: [],
    cutBoxes: [],
  };
  return sceneToSvg(scene, { standalone: true, width: 2 * WIDE });
}

function lowest(node: SceneNode): number {
  switch (node.kind) {
    case 'line':
      return Math.max(node.from.y, node.to.y);
    case 'path':
      return Math.max(...node.segments.map((one) => (one[0] === 'Z' ? 0 : (one.at(-1) as number))));
    case 'group':
      return Math.max(...node.children.map(lowest));
    default:
      return 0;
  }
}

export function placeOf(landmarks: ReadonlyMap<LandmarkName, XY>, name: LandmarkName): XY {
  const place = landmarks.get(name);
  if (!place) throw new Error(`the foot lacks ${name}`);
  return place;
}

/** Against the clock where x runs to the right and y up. */
export function turnedAbout({ x, y }: XY, about: XY, degrees: number): XY {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const [dx, dy] = [x - about.x, y - about.y];
  return { x: about.x + dx * c - dy * s, y: about.y + dx * s + dy * c };
}

export function beyond(from: XY, through: XY, by: number): XY {
  const length = Math.hypot(through.x - from.x, through.y - from.y);
  return {
    x: through.x + ((through.x - from.x) / length) * by,
    y: through.y + ((through.y - from.y) / length) * by,
  };
}

export function outline(points: readonly XY[]): PathSegment[] {
  return [...points.map(({ x, y }, index): PathSegment => [index === 0 ? 'M' : 'L', x, y]), ['Z']];
}

export function line(from: XY, to: XY, weight: number, dash?: readonly number[]): SceneNode {
  return { kind: 'line', from, to, weight, ...(dash && { dash }) };
}

export const measured = (node: SceneNode): SceneNode => group(['measure'], [node]);

export function text(at: XY, words: string, anchor: 'start' | 'end' = 'start'): SceneNode {
  return { kind: 'text', at, size: LETTERS, anchor, runs: [{ text: words }] };
}
