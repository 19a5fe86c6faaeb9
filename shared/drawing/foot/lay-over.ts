import { ontoImage } from '../../geometry/foot-axes.ts';
import { isFinitePoint, type XY } from '../../geometry/vector.ts';
import { nodeOntoImage } from '../carried.ts';
import { sound } from '../sound.ts';
import { drawCut, type PlateCut } from '../plate/cut-drawn.ts';
import { placeLetters, type PlacedLetters } from '../plate/cut-letters.ts';
import { widthInEm } from '../plate/lettering.ts';
import { group, type Box, type SceneNode } from '../scene.ts';
import type { DrawingContext } from '../drawing-context.ts';
import { newGround } from '../plate/what-goes.ts';

/** As large as on the picture; a cut that holds a number no viewer could draw, or leaves no ground to stand on, is no cut. */
export function asOnPicture(cut: PlateCut, mmPerPx: number | null): PlateCut | null {
  if (mmPerPx === null || !(mmPerPx > 0)) return null;
  const enlarged = ({ x, y }: XY): XY => ({ x: x / mmPerPx, y: y / mmPerPx });
  const large: PlateCut = {
    ...cut,
    ground: [enlarged(cut.ground[0]), enlarged(cut.ground[1])],
    ...(cut.bend && { bend: enlarged(cut.bend) }),
    slivers: cut.slivers.map((one) => ({ ...one, outline: one.outline.map(enlarged), face: one.face.map(enlarged) })),
    turned: new Map([...cut.turned].map(([name, p]) => [name, enlarged(p)])),
  };
  const all = [
    ...large.ground,
    ...(large.bend ? [large.bend] : []),
    ...large.slivers.flatMap(({ outline, face }) => [...outline, ...face]),
  ];
  return newGround(...large.ground) && [...all, ...large.turned.values()].every(isFinitePoint) ? large : null;
}

export interface OverlayDrawing {
  readonly nodes: readonly SceneNode[];
  readonly letters: PlacedLetters;
}

export const NOTHING_LAID: OverlayDrawing = { nodes: [], letters: { nodes: [], boxes: [] } };

/** The cut on the picture, with its words where nothing else is lettered. */
export function layOver(
  context: DrawingContext,
  cut: PlateCut | null,
  area: Box,
  em: number,
  taken: readonly Box[],
): OverlayDrawing {
  const { axes, onPicture } = context;
  const fits = (p: XY): boolean => {
    const { x, y } = ontoImage(axes, p);
    return x > area.x && x < area.x + area.width && y > area.y && y < area.y + area.height;
  };
  const drawn = cut && drawCut(context, cut, fits);
  if (!cut || !drawn) return NOTHING_LAID;
  const nodes = sound(drawn.nodes.map((n) => nodeOntoImage(axes, n)));
  const letters = placeLetters(drawn.letters, { axes, area, em, taken, onPicture });
  return {
    nodes: [{ ...group(['cut', ...(onPicture ? ['film'] : [])], nodes, { part: 'cut' }), title: cut.words }],
    letters,
  };
}

/** The boxes of the words that are written on the plate. */
export function lettered(nodes: readonly SceneNode[]): Box[] {
  return nodes.flatMap((node) => {
    if (node.kind === 'group') return lettered(node.children);
    if (node.kind !== 'text') return [];
    const width = node.runs.reduce((sum, run) => sum + widthInEm(run.text), 0) * node.size;
    const x = node.anchor === 'middle' ? node.at.x - width / 2 : node.anchor === 'end' ? node.at.x - width : node.at.x;
    return [{ x, y: node.at.y - 0.9 * node.size, width, height: 1.2 * node.size }];
  });
}
