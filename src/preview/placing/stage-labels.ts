import { layOut, leaderStart } from '../../../shared/drawing/plate/label-layout.ts';
import { widthInEm } from '../../../shared/drawing/plate/lettering.ts';
import { escaped } from '../../../shared/drawing/svg.ts';
import type { MeasureRow, XY } from '../../../shared/views/film-sheet.ts';
import type { Size } from './view.ts';

const EM = 13;
const LINE = 17;
const EDGE = 12;
/** More than these hide the film that is looked at; the table has them all. */
const MOST = 8;

export interface StageLabel {
  readonly row: MeasureRow;
  /** On the stage. */
  readonly anchor: XY;
}

/** The numbers that move with a landmark, at the two sides of the stage, each with a fine line to where it is measured. */
export function labelsOf(told: readonly StageLabel[], stage: Size): string {
  const shown = told.slice(0, MOST).map(({ row, anchor }) => {
    const inside = { x: clamp(anchor.x, stage.width), y: clamp(anchor.y, stage.height) };
    return { row, anchor: inside, seen: inside.x === anchor.x && inside.y === anchor.y };
  });
  if (shown.length === 0) return '';
  const width = Math.max(...shown.map(({ row }) => Math.max(widthInEm(row.words), widthInEm(row.text)))) * EM;
  const height = 2 * LINE;
  const room = width + 2 * EDGE;
  const places = layOut(
    shown.map(({ anchor }) => ({ anchor, width, height })),
    {
      area: {
        x: room,
        y: EDGE + 30,
        width: Math.max(stage.width - 2 * room, 1),
        height: Math.max(stage.height - 2 * EDGE - 60, 1),
      },
      middle: stage.width / 2,
      gutter: EDGE,
      gap: 10,
      hook: LINE / 2,
      knee: 10,
    },
  );
  return shown
    .map(({ row, anchor, seen }, index) => {
      const place = places[index];
      if (!place) return '';
      const { box, side } = place;
      const x = side === 'left' ? box.x : box.x + box.width;
      const end = side === 'left' ? 'start' : 'end';
      const start = leaderStart(place, LINE / 2);
      const from = start.x + (side === 'left' ? 4 : -4);
      const leader = `M${n(from)} ${n(start.y)}L${n(anchor.x)} ${n(anchor.y)}`;
      // What is measured out of sight keeps its number, and no line leads to where it is not.
      const led = seen
        ? `<path class="leader halo" d="${leader}"/><path class="leader ink" d="${leader}"/>` +
          `<circle class="anchor" cx="${n(anchor.x)}" cy="${n(anchor.y)}" r="2.4"/>`
        : '';
      return (
        `<g class="told state-${row.state}">${led}` +
        `<text x="${n(x)}" y="${n(box.y + 12)}" text-anchor="${end}" class="words">${escaped(row.words)}</text>` +
        `<text x="${n(x)}" y="${n(box.y + 12 + LINE)}" text-anchor="${end}" class="value">${escaped(row.text)}` +
        `${row.state === 'none' ? '' : `<tspan class="state" dx="6">${row.state}</tspan>`}</text></g>`
      );
    })
    .join('');
}

const n = (value: number): string => value.toFixed(1);

const clamp = (value: number, size: number): number => Math.max(0, Math.min(size, value));
