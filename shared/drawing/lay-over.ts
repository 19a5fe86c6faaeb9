import { drawCut, type PlateCut } from './cut-drawn.ts';
import { placeLetters, type PlacedLetters } from './cut-letters.ts';
import { intoFrame, isFinitePoint, nodeOntoImage, ontoImage, sound, type DrawingFrame } from './frame.ts';
import { widthInEm } from './lettering.ts';
import { group, type Box, type Point, type SceneNode } from './scene.ts';
import type { Sheet } from './sheet.ts';
import { newGround } from './what-goes.ts';

/** A cut that holds a number no viewer could draw, or leaves no ground to stand on, is no cut. */
export function cutInFrame(cut: PlateCut | null, frame: DrawingFrame): PlateCut | null {
  if (!cut || !newGround(...cut.ground)) return null;
  const carry = (points: readonly Point[]): Point[] => points.map((p) => intoFrame(frame, p));
  const all = [...cut.ground, ...cut.slivers.flatMap(({ outline, face }) => [...outline, ...face])];
  if (![...all, ...cut.turned.values()].every(isFinitePoint)) return null;
  return {
    ...cut,
    ground: [intoFrame(frame, cut.ground[0]), intoFrame(frame, cut.ground[1])],
    slivers: cut.slivers.map((one) => ({ ...one, outline: carry(one.outline), face: carry(one.face) })),
    turned: new Map([...cut.turned].map(([name, p]) => [name, intoFrame(frame, p)])),
  };
}

export interface LaidOver {
  readonly nodes: readonly SceneNode[];
  readonly letters: PlacedLetters;
}

export const NOTHING_LAID: LaidOver = { nodes: [], letters: { nodes: [], boxes: [] } };

/** The cut on the picture, with its words where nothing else is lettered. */
export function layOver(sheet: Sheet, cut: PlateCut | null, area: Box, em: number, taken: readonly Box[]): LaidOver {
  const { frame, onPicture } = sheet;
  const fits = (p: Point): boolean => {
    const { x, y } = ontoImage(frame, p);
    return x > area.x && x < area.x + area.width && y > area.y && y < area.y + area.height;
  };
  const drawn = cut && drawCut(sheet, cut, fits);
  if (!cut || !drawn) return NOTHING_LAID;
  const nodes = sound(drawn.nodes.map((n) => nodeOntoImage(frame, n)));
  const letters = placeLetters(drawn.letters, { frame, area, em, taken, onPicture });
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
