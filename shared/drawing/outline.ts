import { t } from '../language/words.ts';
import { bounds } from './bounds.ts';
import { barLength } from './foot/true-size.ts';
import { group, type LayerName, type Scene, type SceneNode } from './scene.ts';

/** What an outline keeps of a plate: the lines of bones and capsule, and what the foot stands on; of a film that shows, the film. */
const kept: ReadonlySet<LayerName> = new Set(['picture', 'capsule', 'bones', 'ground']);
/** Shading, and words of the plate’s own. */
const shading: ReadonlySet<string> = new Set(['hatch', 'horn', 'hair', 'strand', 'dots', 'marker']);
/** Letters of the bar, mm. */
const LETTERS = 3.4;

/**
 * A plate as lines alone, to be drawn on by hand: no value, no name, no landmark, no shading. A bar below, of a known length, tells whether a
 * printer has kept the size. `scale`: mm for each unit of the scene.
 */
export function outlineOf(scene: Scene, scale: number): Scene {
  const layers = scene.layers
    .filter(({ data }) => data?.layer !== undefined && kept.has(data.layer))
    .map((layer) => ({ ...layer, children: layer.children.flatMap(linesOf) }));
  const mm = 1 / scale;
  const drawn = bounds(layers.flatMap(({ children }) => children)) ?? scene.view;
  const view = grownBy(scene.onPicture ? scene.view : drawn, 3 * mm);
  const [left, y] = [view.x + 3 * mm, view.y + view.height + 4 * mm];
  const right = left + barLength * mm;
  const bar: SceneNode[] = [
    {
      kind: 'line',
      from: { x: left, y },
      to: { x: right, y },
      weight: 0.6 * mm,
      classes: ['bar'],
      data: { part: 'bar' },
    },
    ...[left, (left + right) / 2, right].map((x): SceneNode => ({
      kind: 'line',
      from: { x, y: y - 2 * mm },
      to: { x, y: y + 2 * mm },
      weight: 0.35 * mm,
    })),
    {
      kind: 'text',
      at: { x: right + 2.5 * mm, y: y + 1.2 * mm },
      size: LETTERS * mm,
      anchor: 'start',
      runs: [{ text: t('{0} mm', barLength) }],
    },
  ];
  return {
    ...scene,
    description: t('The outline, as large as the foot is; the bar is {0} mm long.', barLength),
    // The words of the bar stand beyond its end.
    view: {
      ...view,
      width: Math.max(view.width, (barLength + 25) * mm),
      height: view.height + 8 * mm,
    },
    layers: [...layers, group(['layer-bar'], bar)],
    labelBoxes: [],
    cutBoxes: [],
  };
}

const grownBy = ({ x, y, width, height }: Scene['view'], by: number): Scene['view'] => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
});

function linesOf(node: SceneNode): SceneNode[] {
  if (node.classes?.some((name) => shading.has(name))) return [];
  switch (node.kind) {
    case 'group': {
      const children = node.children.flatMap(linesOf);
      // A name would show where a pointer rests.
      const { title: _title, ...rest } = node;
      return children.length > 0 ? [{ ...rest, children }] : [];
    }
    case 'image':
      return [node];
    case 'text':
    case 'dots':
      return [];
    default:
      // What covers the lines behind it has no stroke of its own.
      return node.weight !== undefined || node.classes?.includes('bone-body') === true ? [node] : [];
  }
}
