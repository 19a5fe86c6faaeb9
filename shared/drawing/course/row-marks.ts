import type { XY } from '../../geometry/vector.ts';
import { widthInEm } from '../plate/lettering.ts';
import { group, type Box, type GroupNode, type SceneNode } from '../scene.ts';
import { slantedLines } from '../slanted-lines.ts';
import type { ScaleLinear } from 'd3-scale';
import { forecast } from './forecast.ts';
import { arrowhead, polygon, polyline } from './segments.ts';
import { seriesOf, type StaveChange, type StavePoint, type StaveRow, type StaveSeries } from './stave-input.ts';
import type { TimeScale } from './time-scale.ts';

export interface RowPlace {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly em: number;
  readonly time: TimeScale;
  readonly scale: ScaleLinear<number, number>;
}

/** What a row shows of its measure: the usual range hatched, a mark a value, what changed between them, where it would go. */
export function rowMarks(row: StaveRow, place: RowPlace): GroupNode[] {
  const series = seriesOf(row);
  const taken = new TakenRoom();
  for (const { points } of series) for (const point of points) taken.add(strokeBox(point, place));
  return [
    usualBand(row, place),
    ...series.flatMap((one) => fan(one, place)),
    ...series.map((one) => changes(one, place, taken)),
    ...series.map((one) => strokes(one, row.measure, place)),
  ];
}

function fan({ trend, points }: StaveSeries, { scale, time, top, bottom }: RowPlace): GroupNode[] {
  const last = points.at(-1);
  return trend && last && time.horizon > last.day
    ? [forecast(trend, { x: time.x, y: scale, from: last.day, to: time.horizon, top, bottom })]
    : [];
}

/** The usual range across the row, hatched; open where it has one end only. */
function usualBand({ usual }: StaveRow, { left, right, top, bottom, scale }: RowPlace): GroupNode {
  if (!usual) return group(['usual'], []);
  const upper = usual.high === null ? top : Math.max(scale(usual.high), top);
  const lower = usual.low === null ? bottom : Math.min(scale(usual.low), bottom);
  if (lower - upper < 1) return group(['usual'], []);
  const nodes: SceneNode[] = [
    { kind: 'path', segments: slantedLines(left, right, upper, lower), weight: 0.7, classes: ['hatching'] },
  ];
  for (const [limit, y] of [
    [usual.high, upper],
    [usual.low, lower],
  ] as const) {
    // A limit that lies off the row has no line in it.
    if (limit === null || Math.abs(scale(limit) - y) > 0.5) continue;
    nodes.push({ kind: 'line', from: { x: left, y }, to: { x: right, y }, weight: 0.8, classes: ['limit'] });
  }
  return group(['usual'], nodes);
}

/** A value, upright and as tall as its error; what marks it says how it was taken. */
function strokes({ source, points }: StaveSeries, measure: string, { time, scale }: RowPlace): GroupNode {
  return group(
    ['films'],
    points.map((point) => {
      const x = time.x(point.day);
      const y = scale(point.value);
      const isFilm = source === 'film';
      return {
        kind: 'group',
        classes: ['film-stroke', `state-${point.state}`, ...(isFilm ? [] : [`by-${source}`])],
        data: { measure },
        title: point.text,
        children: [
          {
            kind: 'line',
            from: { x, y: scale(point.value + point.error) },
            to: { x, y: scale(point.value - point.error) },
            weight: isFilm ? 2.2 : 0.9,
            classes: ['error'],
          },
          mark(source, { x, y }),
        ],
      };
    }),
  );
}

/** A bar across the stroke for a film, a ring for a hand, a square on its corner for a photo. */
function mark(source: StaveSeries['source'], { x, y }: XY): SceneNode {
  switch (source) {
    case 'film':
      return { kind: 'line', from: { x: x - 4, y }, to: { x: x + 4, y }, weight: 2.2, classes: ['value-bar'] };
    case 'hand':
      return { kind: 'circle', centre: { x, y }, radius: MARK, weight: 1.6, classes: ['value-ring'] };
    case 'photo': {
      const corners = [
        { x, y: y - MARK },
        { x: x + MARK, y },
        { x, y: y + MARK },
        { x: x - MARK, y },
      ];
      return { kind: 'path', segments: polygon(corners), weight: 1.6, classes: ['value-square'] };
    }
  }
}

/** Half the width of a mark, pixels. */
const MARK = 4;

/** Pixels that a line keeps from the strokes at its ends. */
const CLEAR = 6;

/** From film to film: solid with an arrowhead and its figure where clear, dotted where within the error. */
function changes({ points, changes: all }: StaveSeries, place: RowPlace, taken: TakenRoom): GroupNode {
  const { time, scale } = place;
  const at = ({ day, value }: StavePoint): XY => ({ x: time.x(day), y: scale(value) });
  const nodes = all.flatMap((change): SceneNode[] => {
    const from = points[change.from];
    const to = points[change.to];
    if (!from || !to) return [];
    const [a, b] = [at(from), at(to)];
    const run = Math.hypot(b.x - a.x, b.y - a.y);
    if (run < 2 * CLEAR + 2) return [];
    const between = (share: number): XY => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
    const ends = polyline([between(CLEAR / run), between(1 - CLEAR / run)]);
    if (!change.clear)
      return [{ kind: 'path', segments: ends, weight: 1.1, dash: [0.1, 3.4], classes: ['within-error'] }];
    const middle = between(0.5);
    const drawn: SceneNode[] = [
      { kind: 'path', segments: ends, weight: 1.1, classes: ['clear'] },
      { kind: 'path', segments: arrowhead(middle, b.y < a.y, 34), classes: ['arrow'] },
    ];
    const words = figureOf(change, middle, Math.abs((b.y - a.y) / (b.x - a.x || 1)), place, taken);
    if (words) {
      taken.add(words.box);
      drawn.push(words.node);
    }
    return drawn;
  });
  return group(['changes'], nodes);
}

function strokeBox({ day, value, error }: StavePoint, { time, scale }: RowPlace): Box {
  const x = time.x(day);
  const top = scale(value + error);
  return { x: x - 5, y: top, width: 10, height: scale(value - error) - top };
}

/** The figure of a clear change beside its arrow, where it touches nothing. */
function figureOf(
  { text }: StaveChange,
  { x, y }: XY,
  steepness: number,
  { em, top, bottom, left, right }: RowPlace,
  taken: TakenRoom,
): { readonly node: SceneNode; readonly box: Box } | null {
  const size = 0.84 * em;
  const width = widthInEm(text) * size;
  const off = 7 + (steepness * width) / 2;
  for (const baseline of [y - off, y + off + 0.72 * size]) {
    const box = { x: x - width / 2, y: baseline - 0.8 * size, width, height: size };
    const inside = box.x >= left + 2 && box.x + width <= right;
    const free = inside && box.y >= top - 2 && box.y + box.height <= bottom + 3 && !taken.meets(widened(box));
    if (free)
      return {
        box,
        node: { kind: 'text', at: { x, y: baseline }, size, anchor: 'middle', runs: [{ text }], classes: ['figure'] },
      };
  }
  return null;
}

/** Boxes by the columns that they stand in, so that only those near by are looked at. */
class TakenRoom {
  private readonly columns = new Map<number, Box[]>();

  add(box: Box): void {
    for (const column of columnsOf(box)) {
      const there = this.columns.get(column);
      if (there) there.push(box);
      else this.columns.set(column, [box]);
    }
  }

  meets(box: Box): boolean {
    return columnsOf(box).some((column) => this.columns.get(column)?.some((other) => meet(box, other)));
  }
}

/** Pixels. */
const COLUMN = 20;

function columnsOf({ x, width }: Box): number[] {
  const [first, last] = [Math.floor(x / COLUMN), Math.floor((x + width) / COLUMN)];
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}

/** Two figures side by side read as one without a blank between them. */
const widened = ({ x, y, width, height }: Box): Box => ({ x: x - 4, y, width: width + 8, height });

export function meet(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
