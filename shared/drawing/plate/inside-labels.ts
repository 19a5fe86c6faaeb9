import { distance, type XY } from '../../geometry/vector.ts';
import { inside } from '../hatch.ts';
import { group, type Box, type GroupNode } from '../scene.ts';
import { widthInEm } from './lettering.ts';
import { stateClasses } from './margin-labels.ts';
import { runsThrough, type DrawnPiece } from './strokes.ts';
import type { PlateLabel } from './plate-label.ts';

/** So many stand on the picture at once; more would hide the film that is looked at. On one of fewer letters' width half as many. */
const MOST = 4;
const WIDE = 34;
const SIZE = 0.92;
const LINE = 1.25;
/** Places are tried so many to a side of the picture. */
const TRIED = 28;
/** A line of words over the foot is as bad as one this many times its height farther away. */
const OVER_FOOT = 14;
/** And each stroke through them as bad as this. */
const OVER_STROKE = 5;

interface InsideInput {
  readonly labels: readonly PlateLabel[];
  /** Where each measure is, on the picture. */
  readonly anchors: ReadonlyMap<string, XY>;
  /** What is looked at, and best left free: the foot's landmarks on the picture. */
  readonly foot: readonly XY[];
  readonly area: Box;
  readonly em: number;
  readonly taken: readonly Box[];
  /** Lines that words had better not stand on. */
  readonly strokes: readonly DrawnPiece[];
  readonly onPicture: boolean;
  readonly highlight: string | null;
}

export interface InsideLabels {
  readonly nodes: readonly GroupNode[];
  /** Of those that are always seen. */
  readonly boxes: readonly Box[];
}

/**
 * The words of measures within the picture, for a plate without room beside it: the first few always, each other one while the
 * pointer or the focus rests on its lines or on its row. Each stands where it hides least of the foot, with a line to its place.
 */
export function insideLabels(input: InsideInput): InsideLabels {
  const { onPicture, highlight } = input;
  const outline = hull(input.foot);
  const most = input.area.width < WIDE * input.em ? MOST / 2 : MOST;
  const nodes: GroupNode[] = [];
  const boxes: Box[] = [];
  for (const label of input.labels) {
    const anchor = input.anchors.get(label.measure);
    if (!anchor) continue;
    const always = boxes.length < most;
    const value = shortText(label);
    const box = freest(label.words, value, anchor, outline, input, boxes);
    if (always) boxes.push(box);
    const classes = ['inside-label', ...(always ? [] : ['quiet']), ...(onPicture ? ['film'] : [])];
    nodes.push(
      group([...classes, ...stateClasses(label, highlight)], marksOf(label.words, value, box, anchor, input.em), {
        measure: label.measure,
      }),
    );
  }
  return { nodes, boxes };
}

function marksOf(words: string, value: string, box: Box, anchor: XY, em: number): GroupNode['children'] {
  const size = em * SIZE;
  const middle = box.x + box.width / 2;
  const line = (text: string, of: string, index: number): GroupNode['children'][number] => ({
    kind: 'text',
    at: { x: middle, y: box.y + (index * LINE + 0.95) * size },
    size,
    anchor: 'middle',
    runs: [{ text, classes: [of] }],
    classes: ['label-text', 'inside-words'],
  });
  const from = nearestOn(box, anchor);
  return [
    ...(distance(from, anchor) > 0.4 * em
      ? [{ kind: 'line' as const, from, to: anchor, weight: em * 0.05, classes: ['leader'], halo: 'film' as const }]
      : []),
    { kind: 'circle', centre: anchor, radius: em * 0.1, classes: ['anchor'] },
    line(words, 'words', 0),
    line(value, 'value', 1),
  ];
}

/** The place within the picture that is near and hides little; one over other words only where all are. */
function freest(
  words: string,
  value: string,
  anchor: XY,
  outline: readonly XY[],
  { area, em, taken, strokes }: InsideInput,
  placed: readonly Box[],
): Box {
  const size = em * SIZE;
  const width = Math.max(widthInEm(words), widthInEm(value)) * size;
  const height = 2 * LINE * size;
  const margin = 0.4 * em;
  const [wide, high] = [area.width - width - 2 * margin, area.height - height - 2 * margin];
  let best: Box = { x: area.x + margin, y: area.y + margin, width, height };
  let least = Infinity;
  for (let column = 0; column <= TRIED; column += 1)
    for (let row = 0; row <= TRIED; row += 1) {
      const x = area.x + margin + (Math.max(wide, 0) * column) / TRIED;
      const y = area.y + margin + (Math.max(high, 0) * row) / TRIED;
      const box = { x, y, width, height };
      const cost =
        distance(nearestOn(box, anchor), anchor) +
        coverage(outline, box) * OVER_FOOT * size +
        strokes.filter((stroke) => runsThrough(stroke, box)).length * OVER_STROKE * size +
        [...taken, ...placed].filter((other) => meets(grown(box, 0.3 * em), other)).length * 1e3 * size;
      if (cost < least) [best, least] = [box, cost];
    }
  return best;
}

/** What share of a box lies over the foot, 0 to 1. */
function coverage(outline: readonly XY[], { x, y, width, height }: Box): number {
  if (outline.length < 3) return 0;
  let over = 0;
  for (let column = 0; column <= 4; column += 1)
    for (let row = 0; row <= 2; row += 1)
      if (inside(outline, { x: x + (width * column) / 4, y: y + (height * row) / 2 })) over += 1;
  return over / 15;
}

function nearestOn({ x, y, width, height }: Box, p: XY): XY {
  return { x: Math.min(Math.max(p.x, x), x + width), y: Math.min(Math.max(p.y, y), y + height) };
}

function grown({ x, y, width, height }: Box, by: number): Box {
  return { x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by };
}

function meets(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** The outline around places, by Andrew's monotone chain (Inf Process Lett 1979;9:216). */
function hull(places: readonly XY[]): XY[] {
  const sorted = [...places].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (points: readonly XY[]): XY[] => {
    const chain: XY[] = [];
    for (const p of points) {
      for (let b = chain.at(-1), a = chain.at(-2); a && b; b = chain.at(-1), a = chain.at(-2)) {
        if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > 0) break;
        chain.pop();
      }
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Without its error: the table has that. */
function shortText({ text, after }: PlateLabel): string {
  const value = text.replace(/ ± .*$/, '');
  return after ? `${value} → ${after.text}` : value;
}
