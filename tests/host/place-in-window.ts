import type { FrameLocator } from 'playwright-core';
import { expectThat } from './checks.ts';

/** Where a place of the film that is placed on lies in the window, CSS pixels. */
export async function placeInWindow(
  pane: FrameLocator,
  [x, y]: readonly [number, number],
): Promise<{ x: number; y: number }> {
  const stage = await pane.locator('.stage').boundingBox();
  const lie = await pane.locator('.stage .film-picture').evaluate((film) => {
    const { a, e, f } = new DOMMatrix(getComputedStyle(film).transform);
    return { zoom: a, x: e, y: f };
  });
  expectThat(stage !== null, 'there is no stage');
  return { x: stage.x + lie.x + x * lie.zoom, y: stage.y + lie.y + y * lie.zoom };
}
