import { drawPlate, type PlateInput } from '../../shared/drawing/plate/plate.ts';
import type { GroupNode, Scene, SceneNode } from '../../shared/drawing/scene.ts';

/** Below this many CSS pixels two columns of labels leave the film too small to look at. */
const NARROW = 620;
/** Height of the letters that a label should have on the screen, CSS pixels. */
const LEGIBLE = 11;
const SLIM = 1.2;

/** How large the lettering is, as a factor; `none` where there is room for the measures' lines alone. */
export type Lettering = number | 'none';

/** Labels of a size that can be read in a pane of this width, CSS pixels. It takes some drawing to find out. */
export function fittingLettering(input: PlateInput, width: number): Lettering {
  if (input.labels.length === 0) return 1;
  if (width < NARROW) return 'none';
  const usual = drawPlate(input);
  const size = letterSize(usual.layers);
  if (size === null || (size * width) / usual.view.width >= LEGIBLE) return 1;
  // The columns widen the plate and so shrink it: what of its width is not columns stays the same.
  const bare = drawPlate({ ...input, labels: [] }).view.width;
  const slim = drawPlate({ ...input, lettering: SLIM });
  const slimSize = letterSize(slim.layers) ?? size;
  const columns = (slim.view.width - bare) / slimSize;
  const wanted = (LEGIBLE * bare) / Math.max(width - LEGIBLE * columns, width * 0.4);
  return Math.max((SLIM * wanted) / slimSize, SLIM);
}

export function plateScene(input: PlateInput, lettering: Lettering): Scene {
  return lettering === 'none' ? linesOnly(input) : drawPlate({ ...input, lettering });
}

/** Lines without their labels; resting on one still says what it is, and the table lights it. */
function linesOnly(input: PlateInput): Scene {
  const full = drawPlate(input);
  const words = new Map<string, string>();
  each(full.layers, (node) => {
    if (node.kind === 'group' && node.classes?.includes('label') && node.data?.measure && node.title)
      words.set(node.data.measure, node.title);
  });
  const bare = (node: SceneNode): SceneNode[] => {
    if (node.kind !== 'group') return [node];
    if (node.classes?.includes('label')) return [];
    return [withTitle({ ...node, children: node.children.flatMap(bare) }, words)];
  };
  const { view } = drawPlate({ ...input, labels: [] });
  return { ...full, view, labelBoxes: [], layers: full.layers.flatMap(bare) as GroupNode[] };
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
