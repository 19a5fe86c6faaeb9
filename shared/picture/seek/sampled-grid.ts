import type { XY } from '../../geometry/vector.ts';
import { greyOfLevel, levelFor, type Pyramid } from './pyramid.ts';

/** How a grid of samples lies on a picture: its middle, and the way from one sample to the next, right and down, in pixels. */
export interface GridOnPicture {
  readonly middle: XY;
  readonly right: XY;
  readonly down: XY;
}

/** Samples row by row, as many to either side of the middle. Both counts are odd, so that there is a middle one. */
export function sampledGrid(
  pyramid: Pyramid,
  { middle, right, down }: GridOnPicture,
  columns: number,
  rows: number,
): Float32Array {
  const level = levelFor(pyramid, Math.min(Math.hypot(right.x, right.y), Math.hypot(down.x, down.y)));
  const grid = new Float32Array(columns * rows);
  const [halfAcross, halfDown] = [(columns - 1) / 2, (rows - 1) / 2];
  for (let row = 0; row < rows; row++) {
    const left = {
      x: middle.x + (row - halfDown) * down.x - halfAcross * right.x,
      y: middle.y + (row - halfDown) * down.y - halfAcross * right.y,
    };
    for (let column = 0; column < columns; column++)
      grid[row * columns + column] = greyOfLevel(pyramid, level, left.x + column * right.x, left.y + column * right.y);
  }
  return grid;
}

/** Whether the whole grid lies on the picture. */
export function isOnPicture(
  [{ width, height }]: Pyramid,
  { middle, right, down }: GridOnPicture,
  columns: number,
  rows: number,
): boolean {
  const [across, along] = [(columns - 1) / 2, (rows - 1) / 2];
  const reachX = Math.abs(right.x) * across + Math.abs(down.x) * along;
  const reachY = Math.abs(right.y) * across + Math.abs(down.y) * along;
  return (
    middle.x - reachX >= -0.5 &&
    middle.y - reachY >= -0.5 &&
    middle.x + reachX <= width - 0.5 &&
    middle.y + reachY <= height - 0.5
  );
}
