import type { XY } from '../../geometry/vector.ts';
import { straight } from '../curve.ts';
import type { PathNode, SceneNode } from '../scene.ts';
import { some, WEIGHT, type DrawingContext } from '../drawing-context.ts';

/** What a foot wears as a plain bar from the bearing plane down to the ground; null where one of the two is not placed. */
export function drawShoe(context: DrawingContext): PathNode | null {
  const corners = cornersOf(context);
  return (
    corners && {
      kind: 'path',
      segments: straight(corners, true),
      weight: WEIGHT.inner * 1.6 * context.unit,
      classes: ['shoe'],
      halo: 'film',
      data: { part: 'shoe' },
    }
  );
}

/** What it is, written in the bar, or under it where the bar is too thin for letters. `em`: px of the picture, as is all here. */
export function shoeLetters(context: DrawingContext, words: string, em: number, onImage: (p: XY) => XY): SceneNode[] {
  const corners = cornersOf(context);
  if (!corners || words === '') return [];
  const [heel, toe, toeBelow, heelBelow] = corners;
  const room = Math.min(heel.y - heelBelow.y, toe.y - toeBelow.y);
  const size = 0.86 * em;
  const middle = onImage({
    x: (heel.x + toe.x) / 2,
    y: (heel.y + toe.y + heelBelow.y + toeBelow.y) / 4 - (room > 1.2 * size ? 0 : room / 2 + 0.9 * size),
  });
  return [
    {
      kind: 'text',
      at: { x: middle.x, y: middle.y + 0.3 * size },
      size,
      anchor: 'middle',
      runs: [{ text: words }],
      classes: ['note', 'shoe-words'],
    },
  ];
}

/** From the heel round by the toe, in the foot's own frame. */
function cornersOf(context: DrawingContext): readonly [heel: XY, toe: XY, toeBelow: XY, heelBelow: XY] | null {
  const { groundAt, bearing } = context;
  if (!groundAt || !bearing) return null;
  const contacts = some(context, 'heel.ground', 'toe.ground').map(({ x }) => x);
  const xs = contacts.length === 2 ? contacts : bearing.map(({ x }) => x);
  const [back, front] = [Math.min(...xs), Math.max(...xs)];
  return [
    { x: back, y: 0 },
    { x: front, y: 0 },
    { x: front, y: groundAt(front) },
    { x: back, y: groundAt(back) },
  ];
}
