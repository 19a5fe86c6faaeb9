import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import type { SceneNode } from '../../shared/drawing/scene.ts';
import { stageLines, type StageInput } from '../../shared/drawing/plate/stage-lines.ts';
import { wayOf } from '../../shared/drawing/svg.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';

const picture = { width: 1400, height: 1200 };
const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const [found] = filmSheets(inspect(text));
if (!found) throw new Error('no sheet');
const sheet = found;
const input: StageInput = {
  view: 'lateral',
  placed: new Map(Object.entries(sheet.placed)),
  ground: sheet.ground,
  bearing: sheet.bearing,
  scale: sheet.scale,
  picture,
  measures: ['palmar-angle', 'sole-depth.tip', 'toe-share', 'no-such-measure'],
};

/** The `d` of every stroke of a pen under a node. */
function strokes(node: SceneNode): string[] {
  if (node.kind === 'group') return node.children.flatMap(strokes);
  return 'weight' in node && node.weight !== undefined ? [wayOf(node)] : [];
}

describe('the lines of a foot on the stage', () => {
  it('are the strokes of the plate, without its texture', () => {
    const plate = drawPlate(plateOf(sheet, { href: 'a.png', ...picture }));
    const layer = (name: string): string[] => plate.layers.filter(({ data }) => data?.layer === name).flatMap(strokes);
    const lines = stageLines(input);
    const all = lines.outline + lines.inner;
    for (const way of [...layer('capsule'), ...layer('bones')]) expect(all).toContain(way);
    expect(layer('bones').length).toBeGreaterThan(8);
    expect(all.length).toBe([...layer('capsule'), ...layer('bones')].join('').length);
    expect(layer('ground').join('')).toContain(lines.ground);
  });

  it('say where the number of each measure belongs', () => {
    const { measures } = stageLines(input);
    expect(measures.map(({ measure }) => measure)).toEqual(['palmar-angle', 'sole-depth.tip', 'toe-share']);
    for (const { way, anchor } of measures) {
      expect(way).toMatch(/^M/);
      expect(anchor?.x).toBeGreaterThan(0);
      expect(anchor?.x).toBeLessThan(picture.width);
    }
  });

  it('are none of a foot that is not there, and survive any few places', () => {
    expect(stageLines({ ...input, placed: new Map() })).toMatchObject({ outline: '', inner: '', measures: [] });
    for (const name of input.placed.keys()) {
      const alone = new Map([...input.placed].filter(([one]) => one === name || one === 'p3.tip'));
      const { outline, ground } = stageLines({ ...input, placed: alone });
      expect(outline + ground).not.toContain('NaN');
    }
    expect(stageLines({ ...input, view: 'front' }).ground).toMatch(/^M1099.5 1048.5L144 1022$/);
  });
});
