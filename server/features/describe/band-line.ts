import type { MeasureUnit } from '../../../shared/measures/unit.ts';
import { sayLimit } from '../../../shared/findings/wording/wording.ts';

/** How many signs the line is wide. */
const width = 41;

export interface RangeOnLine {
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * A usual range as a line of text with the values on it, the limits under it:
 *
 *     ·········├────●───────────┤··············
 *              2°              10°
 *
 * Empty where there is no limit or no value. All in the measure's unit.
 */
export function bandLine({ low, high }: RangeOnLine, values: readonly number[], unit: MeasureUnit): string {
  const limits = [low, high].filter((limit) => limit !== null);
  if (limits.length === 0 || values.length === 0) return '';
  const [first, last] = ends(limits, values);
  const column = (value: number): number => Math.round(((value - first) / (last - first)) * (width - 1));
  const from = low === null ? 0 : column(low);
  const to = high === null ? width - 1 : column(high);
  const signs: string[] = Array.from({ length: width }, (_, at) => (at < from || at > to ? '·' : '─'));
  if (low !== null) signs[from] = '├';
  if (high !== null) signs[to] = '┤';
  for (const value of values) signs[column(value)] = '●';
  return `${signs.join('')}\n${underneath(limits.map((limit) => ({ text: sayLimit(limit, unit), at: column(limit) })))}`;
}

/** What the line reaches over: limits and values, with room on both sides. */
function ends(limits: readonly number[], values: readonly number[]): readonly [number, number] {
  const all = [...limits, ...values];
  const low = Math.min(...all);
  const high = Math.max(...all);
  // One limit and a value on it have no width of their own.
  const room = Math.max((high - low) * 0.25, Math.abs(high) * 0.1, 1);
  return [low - room, high + room];
}

/** Each text under its place, moved to the right where the one before it is in the way. */
function underneath(texts: readonly { readonly text: string; readonly at: number }[]): string {
  let line = '';
  for (const { text, at } of texts) {
    const start = Math.max(at - Math.floor(text.length / 2), line === '' ? 0 : line.length + 1);
    line = line.padEnd(start) + text;
  }
  return line;
}
