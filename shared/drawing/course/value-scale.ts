import { scaleLinear, type ScaleLinear } from 'd3-scale';
import { seriesOf, type StaveRow } from './stave-input.ts';

/** What a row shows at least, so that a quiet measure does not look wild. */
const LEAST_SPAN: Readonly<Record<StaveRow['unit'], number>> = { deg: 4, mm: 4, '%': 4, '1': 0.1 };

/** How many times what the films span a limit may lie away and still be taken in. */
const REACH = 2;
const AHEAD = 0.5;

/** Share of the row that stands beyond the end of the usual range, so that the range is seen to be one. */
const BEYOND = 0.16;

/**
 * The stretch of values that rows show: every stroke, the ends of the usual range unless they lie far off, and where the trend would be
 * on the day of the horizon unless that would press the films together.
 */
export function valueDomain(rows: readonly StaveRow[], horizon: number): [number, number] {
  const all = rows.flatMap(seriesOf);
  const points = all.flatMap((series) => series.points);
  const [first] = rows;
  if (!first || points.length === 0) return [0, 1];
  // Not by `Math.min(...)`: more films than a call takes arguments are possible.
  let low = points.reduce((least, { value, error }) => Math.min(least, value - error), Infinity);
  let high = points.reduce((most, { value, error }) => Math.max(most, value + error), -Infinity);
  const lack = LEAST_SPAN[first.unit] - (high - low);
  if (lack > 0) {
    low -= lack / 2;
    high += lack / 2;
  }
  const span = high - low;
  const limits = rows
    .flatMap(({ usual }) => [usual?.low ?? null, usual?.high ?? null])
    .filter((limit) => limit !== null);
  for (const limit of limits) {
    if (limit < low + BEYOND * span && low - limit <= REACH * span) low = limit - BEYOND * span;
    if (limit > high - BEYOND * span && limit - high <= REACH * span) high = limit + BEYOND * span;
  }
  for (const { trend } of all) {
    if (!trend) continue;
    const then = trend.middle.value + trend.slope * (horizon - trend.middle.day);
    if (then < low && low - then <= AHEAD * span) low = then;
    if (then > high && then - high <= AHEAD * span) high = then;
  }
  const air = (high - low) * 0.06;
  return [low - air, high + air];
}

export function valueScale(
  domain: readonly [number, number],
  top: number,
  bottom: number,
): ScaleLinear<number, number> {
  return scaleLinear([...domain], [bottom, top]);
}

export interface ValueTick {
  readonly value: number;
  readonly text: string;
  readonly isLimit: boolean;
}

/** The ends of the usual range, and beside them round numbers that stand clear of them. `room`: pixels that a number needs. */
export function valueTicks(row: StaveRow, scale: ScaleLinear<number, number>, room: number): ValueTick[] {
  const [low = 0, high = 1] = scale.domain();
  const shown = (value: number): boolean => value >= low && value <= high;
  const limits = [row.usual?.low ?? null, row.usual?.high ?? null].filter(
    (limit) => limit !== null && shown(limit),
  ) as number[];
  const ticks: ValueTick[] = [];
  const add = (value: number, isLimit: boolean): void => {
    if (ticks.some((other) => Math.abs(scale(other.value) - scale(value)) < room)) return;
    ticks.push({ value, text: figures(value, row.unit), isLimit });
  };
  for (const limit of limits) add(limit, true);
  for (const tick of scale.ticks(3)) add(tick, false);
  return ticks;
}

function figures(value: number, unit: StaveRow['unit']): string {
  const rounded = String(Math.round(value * 100) / 100).replace('-', '\u2212');
  return unit === 'deg' ? `${rounded}°` : rounded;
}
