import { describe, expect, it } from 'vitest';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import type { Scene } from '../../shared/drawing/scene.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { nodes } from './drawing-help.ts';

/** Made up: 120 mm wide, its bone 2° lower on the inner side; `lines` are those of the film and the trim. */
const text = (sides: string, scale = '    scale 1 mm/px\n'): string => `hoof 1

case "Made up"
  animal horse

visit 2026-03-04
  film LF front "front.png"
${scale}    ground 0, 200 .. 120, 200
    wall.medial @ 0, 200
    wall.lateral @ 120, 200
    p3.medial @ 25, 181.22
    p3.lateral @ 95, 178.78
  trim LF
${sides}`;

const sheetOf = (source: string) => {
  const sheet = filmSheets(inspect(source))[0];
  if (!sheet) throw new Error('no film');
  return sheet;
};

const partsOf = ({ layers }: Scene): string[] => layers.flatMap(nodes).flatMap(({ data }) => data?.['part'] ?? []);

describe('a cut from side to side', () => {
  it('stands on its front film with what it would leave', () => {
    const [cut] = sheetOf(text('    outside down 4 mm\n')).cuts;
    expect(cut?.sides).toEqual({ insideDown: 0, outsideDown: 4 });
    // atan2(4, 120) = 1.909°, worked out by hand; the bone stood 2° lower on its inner side.
    expect(cut?.delta).toBeCloseTo(1.909, 3);
    expect(cut?.rows[0]).toMatchObject({ measure: 'p3-tilt', before: '2.0°' });
    expect(cut?.rows[0]?.after).toMatch(/^0\.1° ± /);
  });

  it('is drawn on the plate of the front view: the new ground and what goes', () => {
    const sheet = sheetOf(text('    inside down 2 mm\n    outside down 4 mm\n'));
    const scene = drawPlate(plateOf(sheet, null, { cut: sheet.cuts[0] ?? null }));
    const parts = partsOf(scene);
    expect(parts).toEqual(expect.arrayContaining(['cut.ground', 'cut.inside', 'cut.outside']));
    expect(scene.description).toContain('inside down 2 mm, outside down 4 mm');
    const bare = drawPlate(plateOf(sheet, null));
    expect(partsOf(bare)).not.toContain('cut.ground');
  });

  it('follows a place that is moved in the pane', () => {
    const sheet = sheetOf(text('    outside down 4 mm\n'));
    const moved = liveSheet(sheet, [{ kind: 'landmark', name: 'wall.lateral', at: { x: 80, y: 200 } }]);
    expect(moved.cuts[0]?.delta).toBeCloseTo((Math.atan2(4, 80) * 180) / Math.PI, 6);
  });

  it.each([
    [
      'there is no front film',
      text('    inside down 2 mm\n').replace(' front ', ' lateral '),
      'no front film of the left fore foot',
    ],
    ['its film has no scale', text('    inside down 2 mm\n', ''), 'lacks a scale'],
    [
      'its film lacks a contact',
      text('    inside down 2 mm\n').replace(/ {4}wall\.medial.*\n/, ''),
      'lacks wall.medial',
    ],
  ])('is told where %s', (_, source, words) => {
    const told = inspect(source).findings.filter(({ code }) => code === 'trim/sides-not-predicted');
    expect(told.map(({ message }) => message)).toEqual([expect.stringContaining(words)]);
    expect(source.slice(told[0]?.at.start, told[0]?.at.end)).toBe('2 mm');
  });

  it('is told of by nothing where it is predicted', () => {
    const { findings } = inspect(text('    inside down 2 mm\n'));
    expect(findings.filter(({ code }) => code.startsWith('trim/'))).toEqual([]);
  });
});
