import { type FootAxes, ontoImage } from '../../geometry/foot-axes.ts';
import { direction, plus, type XY } from '../../geometry/vector.ts';
import { widthInEm } from './lettering.ts';
import { group, type Box, type SceneNode } from '../scene.ts';

/** A few words that want to stand beside a place of the drawing; places in the foot's own frame. */
export interface LetterWish {
  readonly part: string;
  readonly text: string;
  readonly at: XY;
  /** Where from there the words may stand, the best first. */
  readonly ways: readonly XY[];
  /** What a line from the words points at, where they cannot stand beside it. */
  readonly to: XY | null;
}

export interface LetterRules {
  readonly axes: FootAxes;
  /** Words that find no room in it go below. */
  readonly area: Box;
  readonly em: number;
  /** What the words must not cover. */
  readonly taken: readonly Box[];
  readonly onPicture: boolean;
}

export interface PlacedLetters {
  readonly nodes: readonly SceneNode[];
  readonly boxes: readonly Box[];
}

const SIZE = 0.92;
const HEIGHT = 1.2;
/** How often words are moved further out before they go below the picture, by how much of their height. */
const STEPS = [0.3, 0.9, 1.6, 2.4, 3.3] as const;

function meets(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

function holds(area: Box, box: Box): boolean {
  return (
    box.x >= area.x &&
    box.y >= area.y &&
    box.x + box.width <= area.x + area.width &&
    box.y + box.height <= area.y + area.height
  );
}

/** Words beside their places: none over another, none over what is taken. */
export function placeLetters(wishes: readonly LetterWish[], rules: LetterRules): PlacedLetters {
  const boxes: Box[] = [];
  const nodes = wishes.flatMap((wish) => {
    const box = boxFor(wish, rules, [...rules.taken, ...boxes]);
    boxes.push(box);
    return written(wish, box, rules);
  });
  return { nodes, boxes };
}

function boxFor({ text, at, ways }: LetterWish, { axes, area, em }: LetterRules, taken: readonly Box[]): Box {
  const size = em * SIZE;
  const width = widthInEm(text) * size;
  const height = HEIGHT * size;
  const from = ontoImage(axes, at);
  const around = (centre: XY): Box => ({ x: centre.x - width / 2, y: centre.y - height / 2, width, height });
  for (const step of STEPS) {
    for (const way of ways) {
      const out = direction(
        { x: 0, y: 0 },
        { x: axes.u.x * way.x + axes.v.x * way.y, y: axes.u.y * way.x + axes.v.y * way.y },
      );
      if (!out) continue;
      const clear = step * height + (Math.abs(out.x) * width + Math.abs(out.y) * height) / 2;
      const box = around(plus(from, out, clear));
      if (holds(area, box) && !taken.some((other) => meets(box, other))) return box;
    }
  }
  const x = Math.min(Math.max(from.x - width / 2, area.x), Math.max(area.x + area.width - width, area.x));
  let below: Box = { x, y: area.y + area.height + 0.3 * height, width, height };
  for (let i = 0; i < taken.length + 1; i += 1) {
    const hit = taken.find((other) => meets(below, other));
    if (!hit) break;
    below = { ...below, y: Math.max(hit.y + hit.height, below.y) + 0.1 * height };
  }
  return below;
}

function written({ part, text, to }: LetterWish, box: Box, { axes, area, em, onPicture }: LetterRules): SceneNode[] {
  const size = em * SIZE;
  const marks: SceneNode[] = [];
  const words: SceneNode = {
    kind: 'text',
    at: { x: box.x + box.width / 2, y: box.y + box.height / 2 + 0.34 * size },
    size,
    anchor: 'middle',
    runs: [{ text }],
    classes: ['cut-words'],
  };
  const film = onPicture ? ['film'] : [];
  if (to) {
    const spot = ontoImage(axes, to);
    const above = spot.y < box.y + box.height / 2;
    const start = { x: box.x + box.width / 2, y: above ? box.y : box.y + box.height };
    marks.push(
      { kind: 'line', from: start, to: spot, weight: em * 0.055, classes: ['cut-leader'], halo: 'always' },
      { kind: 'circle', centre: spot, radius: em * 0.09, classes: ['cut-anchor'] },
    );
  }
  const inPicture = box.y + box.height <= area.y + area.height;
  return [
    group(['cut-letter', ...film], inPicture ? [...marks, words] : marks, { part }),
    ...(inPicture ? [] : [group(['cut-letter'], [words], { part })]),
  ];
}
