import { drawPlate, type PlateInput } from '../../shared/drawing/plate.ts';
import type { GroupNode, Scene, SceneNode } from '../../shared/drawing/scene.ts';

/** Below this many CSS pixels two columns of labels leave the film too small to look at. */
const NARROW = 620;
/** Height of the letters that a label should have on the screen, CSS pixels. */
const LEGIBLE = 11;
const SLIM = 1.2;

/** The plate for a pane of this width: labels of a size that can be read, or in a narrow pane the measures' lines alone. */
export function plateScene(input: PlateInput, width: number): Scene {
  if (input.labels.length === 0) return drawPlate(input);
  if (width < NARROW) return linesOnly(input);
  const usual = drawPlate(input);
  const size = letterSize(usual.layers);
  if (size === null || (size * width) / usual.view.width >= LEGIBLE) return usual;
  // The columns widen the plate and so shrink it: what of its width is not columns stays the same.
  const bare = drawPlate({ ...input, labels: [] }).view.width;
  const slim = drawPlate({ ...input, lettering: SLIM });
  const slimSize = letterSize(slim.layers) ?? size;
  const columns = (slim.view.width - bare) / slimSize;
  const wanted = (LEGIBLE * bare) / Math.max(width - LEGIBLE * columns, width * 0.4);
  return drawPlate({ ...input, lettering: Math.max((SLIM * wanted) / slimSize, SLIM) });
}

/** Lines without their labels; resting on one still says what it is, and the table lights it. */
function linesOnly(input: PlateInput): Scene {
  const full = drawPlate(input);
  const words = new Map<string, string>();
  each(full.layers, (node) => {
    if (node.kind === 'group' && node.classes?.includes('label') && node.data?.measure && node.title) words.set(node.data.measure, node.title);
  });
  const bare = (node: SceneNode): SceneNode[] => {
    if (node.kind !== 'group') return [node];
    if (node.classes?.includes('label')) return [];
    return [withTitle({ ...node, children: node.children.flatMap(bare) }, words)];
  };
  return { ...full, view: drawPlate({ ...input, labels: [] }).view, labelBoxes: [], layers: full.layers.flatMap(bare) as GroupNode[] };
}

function withTitle(node: GroupNode, words: ReadonlyMap<string, string>): GroupNode {
  const title = node.data?.measure && words.get(node.data.measure);
  return title ? { ...node, title } : node;
}

function letterSize(nodes: readonly SceneNode[]): number | null {
  let size: number | null = null;
  each(nodes, (node) => {
    if (size === null && node.kind === 'text' && node.classes?.includes('label-text')) size = node.size;
  });
  return size;
}

function each(nodes: readonly SceneNode[], see: (node: SceneNode) => void): void {
  for (const node of nodes) {
    see(node);
    if (node.kind === 'group') each(node.children, see);
  }
}
