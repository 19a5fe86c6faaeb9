import { leaderStart, type MarginSide } from '../../../shared/drawing/plate/label-layout.ts';
import { widthInEm } from '../../../shared/drawing/plate/lettering.ts';
import { stateWords } from '../../../shared/drawing/plate/state-words.ts';
import type { Box } from '../../../shared/drawing/scene.ts';
import { escaped } from '../../../shared/drawing/svg.ts';
import type { MeasureRow, XY } from '../../../shared/views/film-sheet.ts';
import type { Handle } from './handles.ts';
import type { Size } from './view.ts';

/** Words on the stage: numbers at its sides, and the name beside a place. None meets another, a place or the edge. */

const EM = 13;
const LINE = 17;
const EDGE = 12;
const GAP = 6;
/** More than these hide the film that is looked at; the table has them all. */
const MOST = 8;
/** How far a label on the further side is off, against one that is so many pixels from its place. */
const ACROSS = 160;
/** More than any stage is high: a number on a line is off by as much. */
const CROSSED = 10_000;
/** Between a number and its state. */
const STATE = 6;
/** Half a place's cross with its ring, CSS pixels. */
const REACH = 14;
/** To each side of a line, CSS pixels. */
const BESIDE = 8;

export interface StageLabel {
  readonly row: Pick<MeasureRow, 'words' | 'text' | 'state'>;
  /** On the stage. */
  readonly anchor: XY;
}

export interface PlacedLabel extends StageLabel {
  readonly box: Box;
  readonly side: MarginSide;
  /** Whether the anchor is on the stage; else it is moved to its edge, and no line leads there. */
  readonly seen: boolean;
}

/** What no word may stand on: the places, each with its ring. */
export const spotBoxes = (handles: readonly Pick<Handle, 'at'>[]): Box[] =>
  handles.map(({ at }) => ({ x: at.x - REACH, y: at.y - REACH, width: 2 * REACH, height: 2 * REACH }));

/** A line that numbers keep off, as small boxes along it. @param ends on the stage */
export function boxesAlong([from, to]: readonly [XY, XY]): Box[] {
  const steps = Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / BESIDE);
  return Array.from({ length: steps + 1 }, (_, step) => {
    const share = steps === 0 ? 0 : step / steps;
    const at = { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
    return { x: at.x - BESIDE, y: at.y - BESIDE, width: 2 * BESIDE, height: 2 * BESIDE };
  });
}

/**
 * The numbers that move with a landmark, at the two sides of the stage, as near to where they are measured as nothing else stands.
 * What finds no room is left out: the table has it. `crossed`: where no number stands as long as there is other room.
 */
export function layLabels(
  told: readonly StageLabel[],
  stage: Size,
  taken: readonly Box[],
  crossed: readonly Box[] = [],
): PlacedLabel[] {
  const shown = told
    .slice(0, MOST)
    .map(({ row, anchor }) => {
      const inside = { x: clamp(anchor.x, 0, stage.width), y: clamp(anchor.y, 0, stage.height) };
      return { row, anchor: inside, seen: inside.x === anchor.x && inside.y === anchor.y };
    })
    .toSorted((a, b) => a.anchor.y - b.anchor.y);
  const width = Math.max(0, ...shown.map(({ row }) => Math.max(widthInEm(row.words), widthOfValue(row)))) * EM;
  const height = 2 * LINE;
  const placed: PlacedLabel[] = [];
  for (const one of shown) {
    let best: PlacedLabel | null = null;
    let least = Infinity;
    const others = [...taken, ...placed.map((other) => grown(other.box))];
    const near: MarginSide = one.anchor.x < stage.width / 2 ? 'left' : 'right';
    for (const side of ['left', 'right'] as const)
      for (let y = EDGE; y + height <= stage.height - EDGE; y += GAP) {
        const off = Math.abs(y + LINE / 2 - one.anchor.y) + (side === near ? 0 : ACROSS);
        if (off >= least) continue;
        const box = { x: side === 'left' ? EDGE : stage.width - EDGE - width, y, width, height };
        if (box.x < EDGE || box.x + width > stage.width - EDGE) continue;
        if (others.some((other) => meet(box, other))) continue;
        const cost = off + (crossed.some((other) => meet(box, other)) ? CROSSED : 0);
        if (cost >= least) continue;
        best = { ...one, box, side };
        least = cost;
      }
    if (best) placed.push(best);
  }
  return uncrossed(placed);
}

/** On each side the boxes, which are of one size, go to the places in their order from above: so leaders hardly cross. */
function uncrossed(placed: readonly PlacedLabel[]): PlacedLabel[] {
  return (['left', 'right'] as const).flatMap((side) => {
    const here = placed.filter((one) => one.side === side);
    const boxes = here.map(({ box }) => box).toSorted((a, b) => a.y - b.y);
    return here.map((one, index) => ({ ...one, box: boxes[index] ?? one.box }));
  });
}

export function labelsSvg(placed: readonly PlacedLabel[]): string {
  return placed
    .map(({ row, anchor, seen, box, side }) => {
      const x = side === 'left' ? box.x : box.x + box.width;
      const end = side === 'left' ? 'start' : 'end';
      const start = leaderStart({ side, box }, LINE / 2);
      const from = start.x + (side === 'left' ? 4 : -4);
      const leader = `M${n(from)} ${n(start.y)}L${n(anchor.x)} ${n(anchor.y)}`;
      // What is measured out of sight keeps its number, and no line leads to where it is not.
      const led = seen
        ? `<path class="leader halo" d="${leader}"/><path class="leader ink" d="${leader}"/>` +
          `<circle class="anchor" cx="${n(anchor.x)}" cy="${n(anchor.y)}" r="2.4"/>`
        : '';
      const state = stateWords[row.state];
      return (
        `<g class="told state-${row.state}">${led}` +
        `<text x="${n(x)}" y="${n(box.y + 12)}" text-anchor="${end}" class="words">${escaped(row.words)}</text>` +
        `<text x="${n(x)}" y="${n(box.y + 12 + LINE)}" text-anchor="${end}" class="value">${escaped(row.text)}` +
        `${state === '' ? '' : `<tspan class="state" dx="${STATE}">${escaped(state)}</tspan>`}</text></g>`
      );
    })
    .join('');
}

function widthOfValue({ text, state }: StageLabel['row']): number {
  const word = stateWords[state];
  return widthInEm(text) + (word === '' ? 0 : STATE / EM + widthInEm(word));
}

export interface NamePlace {
  /** From the place to where the text is anchored. */
  readonly dx: number;
  readonly dy: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** On the stage. */
  readonly box: Box;
}

/** Where the name may stand beside its place, the best first. */
const beside: readonly Omit<NamePlace, 'box'>[] = [
  { dx: 13, dy: -9, anchor: 'start' },
  { dx: -13, dy: -9, anchor: 'end' },
  { dx: 13, dy: 19, anchor: 'start' },
  { dx: -13, dy: 19, anchor: 'end' },
  { dx: 0, dy: -20, anchor: 'middle' },
  { dx: 0, dy: 30, anchor: 'middle' },
  { dx: 18, dy: 5, anchor: 'start' },
  { dx: -18, dy: 5, anchor: 'end' },
];

/**
 * Where each name stands when it shows, by the handle's key: on the stage, on no number and on nothing else that is `taken`, and on
 * no other place where that can be. The name of what is in the hand shows all the time, so no other stands on it. Without an entry
 * there is no room for a name.
 */
export function layNames(
  handles: readonly Handle[],
  selected: string | null,
  stage: Size,
  taken: readonly Box[],
): ReadonlyMap<string, NamePlace> {
  const places = new Map<string, NamePlace>();
  const inHand = handles.filter(({ key }) => key === selected);
  const blocked = [...taken];
  for (const handle of [...inHand, ...handles.filter((one) => !inHand.includes(one))]) {
    const others = spotBoxes(handles.filter(({ key }) => key !== handle.key));
    const width = widthInEm(handle.name) * EM;
    const free = beside
      .map((place): NamePlace => {
        const x = handle.at.x + place.dx - (place.anchor === 'start' ? 0 : place.anchor === 'end' ? width : width / 2);
        return { ...place, box: { x, y: handle.at.y + place.dy - 12, width, height: 16 } };
      })
      .filter(({ box }) => isOn(box, stage) && !blocked.some((other) => meet(box, other)));
    const place = free.find(({ box }) => !others.some((other) => meet(box, other))) ?? free[0];
    if (!place) continue;
    places.set(handle.key, place);
    if (handle.key === selected) blocked.push(place.box);
  }
  return places;
}

const isOn = ({ x, y, width, height }: Box, stage: Size): boolean =>
  x >= 2 && y >= 2 && x + width <= stage.width - 2 && y + height <= stage.height - 2;

export const meet = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

const grown = ({ x, y, width, height }: Box): Box => ({
  x: x - GAP,
  y: y - GAP,
  width: width + 2 * GAP,
  height: height + 2 * GAP,
});

const n = (value: number): string => value.toFixed(1);

const clamp = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));
