import { isFinitePoint, type XY } from '../../geometry/vector.ts';
import { nodeOntoImage } from '../carried.ts';
import { sound } from '../sound.ts';
import { unitOf } from '../unit.ts';
import { DRAWN } from './measures-drawn.ts';
import { contextOf, drawFoot } from './plate.ts';
import type { SceneNode } from '../scene.ts';
import { wayOf } from '../svg.ts';

export interface StageInput {
  readonly view: 'lateral' | 'front' | 'solar';
  readonly placed: ReadonlyMap<string, XY>;
  readonly ground: readonly [XY, XY] | null;
  readonly bearing: readonly [XY, XY] | null;
  /** mm/px. */
  readonly scale: number | null;
  readonly picture: { readonly width: number; readonly height: number };
  /** The measures whose lines are drawn. */
  readonly measures: readonly string[];
}

/** Pen strokes only, each as the `d` of one path in pixels of the picture: a foot that is drawn anew at every frame. */
export interface StageLines {
  /** Outlines of bones and capsule. */
  readonly outline: string;
  /** The finer lines inside them. */
  readonly inner: string;
  readonly ground: string;
  readonly measures: readonly StageMeasure[];
}

export interface StageMeasure {
  readonly measure: string;
  readonly way: string;
  /** Where its label belongs; null where the geometry gives no place. */
  readonly anchor: XY | null;
}

export function stageLines(input: StageInput): StageLines {
  const placed = new Map([...input.placed].filter(([, p]) => isFinitePoint(p)));
  if (input.view !== 'lateral' || placed.size === 0) {
    const { ground } = input;
    return {
      outline: '',
      inner: '',
      ground: ground ? wayOf({ kind: 'line', from: ground[0], to: ground[1] }) : '',
      measures: [],
    };
  }
  const extent = Math.hypot(input.picture.width, input.picture.height);
  const unit = unitOf(placed, input.scale, extent);
  const { bearing } = input;
  const foot = drawFoot({
    places: placed,
    ground: input.ground,
    bearing,
    unit,
    onPicture: true,
    cut: null,
    bare: true,
  });
  const { layers } = foot;
  const strokes = {
    outline: '',
    inner: '',
    ground: bearing ? wayOf({ kind: 'line', from: bearing[0], to: bearing[1] }) : '',
  };
  for (const node of [...(layers.capsule ?? []), ...(layers.bones ?? [])])
    each(node, (stroke, finer) => {
      strokes[finer ? 'inner' : 'outline'] += wayOf(stroke);
    });
  for (const node of layers.ground ?? [])
    each(node, (stroke) => {
      strokes.ground += wayOf(stroke);
    });
  const measures = input.measures.flatMap((measure): StageMeasure[] => {
    const context = contextOf(foot, measure);
    const lines = DRAWN.get(measure)?.(context);
    if (!lines) return [];
    let way = '';
    for (const node of sound(lines.nodes.map((one) => nodeOntoImage(context.axes, one))))
      each(node, (stroke) => {
        way += wayOf(stroke);
      });
    const spot = nodeOntoImage(context.axes, { kind: 'circle', centre: lines.anchor, radius: 0 });
    return [{ measure, way, anchor: spot.kind === 'circle' && isFinitePoint(spot.centre) ? spot.centre : null }];
  });
  return { ...strokes, measures };
}

type Stroke = Parameters<typeof wayOf>[0];

/** Every stroke of a pen; what is filled is texture, and a place under it could not be seen. */
function each(node: SceneNode, see: (stroke: Stroke, finer: boolean) => void): void {
  if (node.kind === 'group') node.children.forEach((child) => each(child, see));
  else if ('weight' in node && node.weight !== undefined) see(node, node.classes?.includes('outline') !== true);
}
