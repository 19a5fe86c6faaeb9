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

  it('adds up with what trims took off since the film, and stands on what they left', () => {
    const again = `${text('    inside down 2 mm\n')}  trim LF\n    inside down 3 mm\n`;
    const [first, second] = sheetOf(again).cuts;
    const turn = (mm: number): number => (Math.atan2(-mm, 120) * 180) / Math.PI;
    expect(first?.delta).toBeCloseTo(turn(2), 9);
    expect(second?.delta).toBeCloseTo(turn(5) - turn(2), 9);
    // The bone stood 2° lower on its inner side; 2 mm on 120 mm turn it by 0.95° more that way, 5 mm by 2.39°.
    expect(second?.rows[0]).toMatchObject({ measure: 'p3-tilt', before: first?.rows[0]?.after.replace(/ ±.*/, '') });
    const together = sheetOf(text('    inside down 5 mm\n')).cuts[0];
    expect(second?.predicted).toEqual(together?.predicted);
    // In the pane as in the text.
    const sheet = sheetOf(again);
    const moved = liveSheet(sheet, [{ kind: 'landmark', name: 'wall.medial', at: { x: 0, y: 200 } }]);
    expect(moved.cuts[1]?.predicted).toEqual(second?.predicted);
    expect(moved.cuts[1]?.rows).toEqual(second?.rows);
  });

  it('goes by the film above it: one of the same day below it shows the foot without that side', () => {
    const film = (name: string, y: number): string => `  film LF front "${name}"
    scale 1 mm/px
    ground 0, 200 .. 120, 200
    wall.medial @ 0, 200
    wall.lateral @ 120, 200
    p3.medial @ 25, ${y}
    p3.lateral @ 95, 178.78
`;
    const before = text('    outside down 4 mm\n')
      .replace('visit 2026-03-04', 'visit 2026-02-04')
      .replace(/ {2}trim[^]*/, '');
    const source = `${before}\nvisit 2026-03-04\n  trim LF\n    outside down 4 mm\n${film('after.png', 179)}`;
    const sheets = filmSheets(inspect(source));
    expect(sheets.map(({ cuts }) => cuts.length)).toEqual([1, 0]);
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
