import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { GroupNode, SceneNode } from '../../shared/drawing/scene.ts';
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

describe('lettering on the plate', () => {
  it.each([640, 760, 900, 1100, 1600])('can be read in a pane %i px wide', (width) => {
    const scene = plateScene(input, fittingLettering(input, width));
    expect((letters(scene.layers) * width) / scene.view.width).toBeGreaterThan(9.9);
    // The film keeps its share of the pane.
    expect(1400 / scene.view.width).toBeGreaterThan(0.38);
  });

  it('gives way to the film in a narrow pane; each line then says itself what it is', () => {
    const scene = plateScene(input, fittingLettering(input, 480));
    expect(scene.view).toEqual({ x: 0, y: 0, width: 1400, height: 1200 });
    const all = groups(scene.layers);
    expect(all.filter(({ classes }) => classes?.includes('label'))).toEqual([]);
    const palmar = all.find(({ data, classes }) => data?.measure === 'palmar-angle' && classes?.includes('measure'));
    expect(palmar?.title).toContain('palmar angle');
  });

  it('asks for nothing where there is nothing to letter', () => {
    expect(fittingLettering({ ...input, labels: [] }, 300)).toBe(1);
  });
});
