import type { XY } from '../../geometry/vector.ts';
import { group, type GroupNode, type SceneNode } from '../scene.ts';
import { polygon } from './segments.ts';
import type { StaveTrim } from './stave-input.ts';
import type { TimeScale } from './time-scale.ts';

const THICK = 5;
const NOTCH = { half: 4.5, deep: 4.2 };

/** Height that the line and its words take below `y`. */
export const timeLineHeight = (em: number): number => THICK + 1.9 * em;

interface LineArea {
  readonly left: number;
  readonly right: number;
  /** Upper edge. */
  readonly y: number;
  readonly em: number;
}

/** The line of time: as thick as it has been lived, a notch for each trim, a hair for the time to come. */
export function timeLine(time: TimeScale, trims: readonly StaveTrim[], { left, right, y, em }: LineArea): GroupNode {
  const end = time.x(time.last) + 6;
  const lived = [
    { x: left, y },
    ...notches(
      trims.map(({ day }) => time.x(day)).filter((x) => x > left + NOTCH.half && x < end - NOTCH.half),
      y,
    ),
    { x: end, y },
    { x: end, y: y + THICK },
    { x: left, y: y + THICK },
  ];
  const nodes: SceneNode[] = [
    { kind: 'path', segments: polygon(lived), classes: ['lived'] },
    {
      kind: 'line',
      from: { x: end + 3, y: y + THICK / 2 },
      to: { x: right, y: y + THICK / 2 },
      weight: 1,
      dash: [1, 4],
      classes: ['to-come'],
    },
  ];
  for (const { day, words } of trims) {
    const x = time.x(day);
    nodes.push({
      kind: 'group',
      classes: ['trim'],
      title: words,
      children: [
        {
          kind: 'path',
          segments: polygon([
            { x: x - 7, y: y - 8 },
            { x: x + 7, y: y - 8 },
            { x: x + 7, y: y + THICK + 3 },
            { x: x - 7, y: y + THICK + 3 },
          ]),
          classes: ['touch'],
        },
      ],
    });
  }
  for (const { x, text } of time.ticks)
    nodes.push(
      { kind: 'line', from: { x, y: y + THICK }, to: { x, y: y + THICK + 4 }, weight: 0.8, classes: ['scale'] },
      {
        kind: 'text',
        at: { x, y: y + THICK + 1.35 * em },
        size: em * 0.92,
        anchor: 'middle',
        runs: [{ text }],
        classes: ['quiet'],
      },
    );
  return group(['time-line'], nodes);
}

/** Cuts into the upper edge, from left to right; two that are near each other run into one another. */
function notches(xs: readonly number[], y: number): XY[] {
  const sorted = [...new Set(xs)].sort((a, b) => a - b);
  return sorted.flatMap((x, index) => {
    const before = sorted[index - 1];
    const after = sorted[index + 1];
    const edge = (other: number | undefined, side: 1 | -1): XY => {
      if (other === undefined || Math.abs(other - x) >= 2 * NOTCH.half) return { x: x + side * NOTCH.half, y };
      const half = Math.abs(other - x) / 2;
      return { x: x + side * half, y: y + NOTCH.deep * (1 - half / NOTCH.half) };
    };
    return [edge(before, -1), { x, y: y + NOTCH.deep }, edge(after, 1)];
  });
}
