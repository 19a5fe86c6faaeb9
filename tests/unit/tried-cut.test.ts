import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets, type CutSheet, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { triedCut } from '../../shared/views/live-sheet.ts';

const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');

function planOn(source: string) {
  const sheet = filmSheets(inspect(source))[0];
  const cut = sheet?.cuts.find(({ kind }) => kind === 'plan');
  if (!sheet || !cut) throw new Error('the example has no plan on its first film');
  return { sheet, cut };
}
const outcome = ({ delta, after, predicted, rows }: CutSheet) => ({ delta, after, predicted, rows });

describe('a cut that is tried with a slider', () => {
  it.each([0, 0.5, 3, 8, 16.5])('of %s mm at the heel is what the text would predict, deviations included', (mm) => {
    const { sheet, cut } = planOn(text);
    const written = planOn(text.replace('heel  down 5 mm', `heel  down ${mm} mm`));
    expect(written.cut.size.heelDown).toBe(mm);
    const tried = triedCut(sheet, cut, { ...cut.size, heelDown: mm });
    expect(outcome(tried)).toEqual(outcome(written.cut));
    expect(tried.rows.every(({ after }) => / ± \d+\.\d/.test(after))).toBe(true);
    expect(tried.notes).toEqual([]);
  });

  it('rests on what the page was told, as plain data', () => {
    const { sheet, cut } = planOn(text);
    const told = JSON.parse(JSON.stringify(sheet)) as FilmSheet;
    const size = { ...cut.size, heelDown: 6.5 };
    expect(triedCut(told, cut, size)).toEqual(triedCut(sheet, cut, size));
  });

  it('says the cut in words, with what is left alone', () => {
    const { sheet, cut } = planOn(text);
    expect(triedCut(sheet, cut, { ...cut.size, heelDown: 6.5 }).cut).toBe('heel down 6.5 mm, leave toe and sole');
  });

  it('predicts nothing on a film without a scale', () => {
    const { sheet, cut } = planOn(text);
    const tried = triedCut({ ...sheet, input: { ...sheet.input, scale: null } }, cut, cut.size);
    expect(tried).toMatchObject({ delta: null, after: null, rows: [] });
  });
});
