import { drawPlate, type PlateInput } from '../../shared/drawing/plate/plate.ts';
import type { Scene, SceneNode } from '../../shared/drawing/scene.ts';

/** Below this many CSS pixels two columns of labels leave the film too small to look at. */
const NARROW = 620;
/** Height of the letters that a label should have on the screen, CSS pixels. */
const LEGIBLE = 11;
const SLIM = 1.2;

/** How large the lettering is, as a factor, and whether it stands in columns or within the picture. */
export interface Lettering {
  readonly factor: number;
  readonly at: 'beside' | 'inside';
}

/** Labels of a size that can be read in a pane of this width, CSS pixels. It takes some drawing to find out. */
export function fittingLettering(input: PlateInput, width: number): Lettering {
  if (input.labels.length === 0) return { factor: 1, at: 'beside' };
  return width < NARROW ? inside(input, width) : { factor: beside(input, width), at: 'beside' };
}

export function plateScene(input: PlateInput, { factor, at }: Lettering): Scene {
  return drawPlate({ ...input, lettering: factor, labelsAt: at });
}

function inside(input: PlateInput, width: number): Lettering {
  const usual = drawPlate({ ...input, labelsAt: 'inside' });
  const size = letterSize(usual.layers);
  // A hair more, as words below the picture widen the plate.
  return { factor: size === null ? 1 : (1.03 * LEGIBLE * usual.view.width) / (width * size), at: 'inside' };
}

function beside(input: PlateInput, width: number): number {
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
