import { group, type GroupNode, type SceneNode } from '../scene.ts';
import type { StaveTrend } from './stave-input.ts';

interface PlotArea {
  x(day: number): number;
  y(value: number): number;
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly bottom: number;
}

/** Pixels from stroke to stroke; wider where the films are too few to carry 95 %. */
const STEP = 4;
const STEP_FEW = 9;
/** A stroke no taller than this would be lost. */
const LEAST = 1.6;

/**
 * Where the trend would go: from the last film on, strokes as tall as its interval, which grow fainter until nothing is left. They are the
 * ghosts of the strokes that films would have.
 */
export function forecast({ slope, low, high, middle, carried, words }: StaveTrend, place: PlotArea): GroupNode {
  const { from, to, top, bottom } = place;
  const [start, end] = [place.x(from) + 8, place.x(to)];
  const step = carried ? STEP : STEP_FEW;
  const nodes: SceneNode[] = [];
  for (let x = start; x < end; x += step) {
    const share = (x - start) / (end - start);
    const day = from + ((to - from) * (x - place.x(from))) / (end - place.x(from));
    const at = (rate: number): number => place.y(middle.value + rate * (day - middle.day));
    const [a, b] = [at(low), at(high)];
    const lack = Math.max(LEAST - Math.abs(a - b), 0) / 2;
    const upper = Math.max(Math.min(a, b) - lack, top);
    const lower = Math.min(Math.max(a, b) + lack, bottom);
    // Off the row: what is carried on that far is not shown.
    if (lower <= upper || at(slope) < top || at(slope) > bottom) break;
    nodes.push({
      kind: 'line',
      from: { x, y: upper },
      to: { x, y: lower },
      weight: 1.7 * (1 - share) + 0.15,
      classes: ['ray'],
    });
  }
  return { ...group(['forecast', ...(carried ? [] : ['few'])], nodes), title: words };
}
