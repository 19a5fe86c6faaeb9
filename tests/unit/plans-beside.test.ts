import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { planScenes, plansBeside } from '../../shared/views/plans-beside.ts';
import { caseText, filmText } from './plain-foot.ts';

const plan = (mm: number): string => `\n\n  plan LF\n    heel down ${mm} mm`;
const sheetOf = (body: string) => {
  const [sheet] = filmSheets(inspect(caseText(body)));
  if (!sheet) throw new Error('no film');
  return sheet;
};

describe('plans of one film beside each other', () => {
  it('are those of the case, and none where there is only one', () => {
    const two = sheetOf(`${filmText()}${plan(2)}${plan(30)}\n\n  trim LF\n    heel down 1 mm`);
    expect(plansBeside(two, null).map(({ cut }) => cut.cut)).toEqual(['heel down 2 mm', 'heel down 30 mm']);
    expect(plansBeside(sheetOf(`${filmText()}${plan(2)}`), null)).toEqual([]);
    // Without a scale nothing can be drawn of either.
    expect(plansBeside(sheetOf(`${filmText({}, { scale: null })}${plan(2)}${plan(3)}`), null)).toEqual([]);
  });

  it('each have what they leave and what they break', () => {
    const [small, large] = plansBeside(sheetOf(`${filmText()}${plan(2)}${plan(30)}`), null);
    expect(small?.cut.broken).toEqual([]);
    expect(large?.cut.broken.join()).toContain('live sole');
    // 30 mm over the 138 mm from heel to toe: atan(30 / 138) is 12.3 degrees, where 2 mm are 0.8.
    expect([small?.cut.delta?.toFixed(1), large?.cut.delta?.toFixed(1)]).toEqual(['0.8', '12.3']);
  });

  it('are drawn in one frame, so at one scale, without a value of the foot', () => {
    const scenes = planScenes(plansBeside(sheetOf(`${filmText()}${plan(2)}${plan(30)}`), null));
    expect(scenes.map(({ view }) => view)).toEqual([scenes[0]?.view, scenes[0]?.view]);
    for (const scene of scenes) {
      const svg = sceneToSvg(scene);
      expect(svg).toContain('mm</text>');
      expect(svg).not.toContain('palmar angle');
      expect(svg).not.toContain('layer-landmarks');
    }
  });
});
