import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { widthInEm } from '../../shared/drawing/plate/lettering.ts';
import type { Box, GroupNode, SceneNode } from '../../shared/drawing/scene.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { fittingLettering, plateScene } from '../../src/preview/plate-scene.ts';

const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const sheet = filmSheets(inspect(text))[0];
if (!sheet) throw new Error('the example has no film');
const input = plateOf(sheet, { href: 'a.png', width: 1400, height: 1200 });

const groups = (nodes: readonly SceneNode[]): GroupNode[] =>
  nodes.flatMap((node) => (node.kind === 'group' ? [node, ...groups(node.children)] : []));
const letters = (nodes: readonly SceneNode[]): number =>
  nodes
    .flatMap((node) =>
      node.kind === 'group'
        ? [letters(node.children)]
        : node.kind === 'text' && node.classes?.includes('label-text')
          ? [node.size]
          : [],
    )
    .reduce((a, b) => Math.max(a, b), 0);

/** Of the two lines of words of a label. */
function boxOf(children: readonly SceneNode[]): Box {
  const lines = children.flatMap((node) => (node.kind === 'text' ? [node] : []));
  const [first] = lines;
  if (!first) throw new Error('no words');
  const width = Math.max(...lines.map(({ runs, size }) => widthInEm(runs.map(({ text }) => text).join('')) * size));
  return {
    x: first.at.x - width / 2,
    y: first.at.y - 0.8 * first.size,
    width,
    height: (lines.at(-1)?.at.y ?? first.at.y) - first.at.y + first.size,
  };
}

const meets = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

describe('lettering on the plate', () => {
  it.each([640, 760, 900, 1100, 1600])('can be read in a pane %i px wide', (width) => {
    const scene = plateScene(input, fittingLettering(input, width));
    expect((letters(scene.layers) * width) / scene.view.width).toBeGreaterThan(9.9);
    // The film keeps its share of the pane.
    expect(1400 / scene.view.width).toBeGreaterThan(0.38);
  });

  it.each([
    [300, 2],
    [420, 4],
    [520, 4],
    [610, 4],
  ])(
    'stands within the film in a pane %i px wide, each word as large as is legible, %i measures at once',
    (width, atOnce) => {
      const scene = plateScene(input, fittingLettering(input, width));
      expect((letters(scene.layers) * width) / scene.view.width).toBeGreaterThan(9.9);
      const all = groups(scene.layers);
      expect(all.filter(({ classes }) => classes?.includes('label'))).toEqual([]);
      const inside = all.filter(({ classes }) => classes?.includes('inside-label'));
      expect(inside.map(({ data }) => data?.measure)).toContain('palmar-angle');
      // The others where the pointer rests on their lines or rows.
      expect(inside.filter(({ classes }) => !classes?.includes('quiet'))).toHaveLength(atOnce);
      expect(inside.length).toBeGreaterThan(8);
    },
  );

  it('keeps the words within the film apart and on it', () => {
    const texts = groups(plateScene(input, fittingLettering(input, 520)).layers)
      .filter(({ classes }) => classes?.includes('inside-label') && !classes.includes('quiet'))
      .map((label) => boxOf(label.children));
    texts.forEach((one, i) => {
      expect(one.x).toBeGreaterThanOrEqual(0);
      expect(one.y).toBeGreaterThanOrEqual(0);
      expect(one.x + one.width).toBeLessThanOrEqual(1400);
      expect(one.y + one.height).toBeLessThanOrEqual(1200);
      for (const other of texts.slice(i + 1)) expect(meets(one, other)).toBe(false);
    });
  });

  it('asks for nothing where there is nothing to letter', () => {
    expect(fittingLettering({ ...input, labels: [] }, 300)).toEqual({ factor: 1, at: 'beside' });
  });
});
