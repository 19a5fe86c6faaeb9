import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets, type CutSheet } from '../../shared/report/film-sheet.ts';
import { LiveCut } from '../../shared/report/live-cut.ts';

const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');

function planOn(source: string) {
  const sheet = filmSheets(inspect(source))[0];
  const cut = sheet?.cuts.find(({ kind }) => kind === 'plan');
  if (!sheet || !cut) throw new Error('the example has no plan on its first film');
  return { sheet, cut };
}
const plain = ({ delta, after, foretold, rows }: CutSheet) => ({
  delta,
  after,
  foretold,
  rows: rows.map((row) => ({ ...row, after: row.after.replace(/ ± .*$/, '') })),
});
/** Figures of two ways to the same number differ in their last digits. */
const rounded = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (_, one) => (typeof one === 'number' ? Number(one.toFixed(6)) : one)));

describe('a cut that is tried with a slider', () => {
  it.each([0, 0.5, 3, 8, 16.5])('of %s mm at the heel is what the text would foretell', (mm) => {
    const { sheet, cut } = planOn(text);
    const written = planOn(text.replace('heel  down 5 mm', `heel  down ${mm} mm`));
    expect(written.cut.size.heelDown).toBe(mm);
    const tried = new LiveCut(sheet).at(cut, { ...cut.size, heelDown: mm });
    expect(rounded(plain(tried))).toEqual(rounded(plain(written.cut)));
    expect(tried.notes).toEqual([]);
  });

  it('says the cut in words, with what is left alone', () => {
    const { sheet, cut } = planOn(text);
    expect(new LiveCut(sheet).at(cut, { ...cut.size, heelDown: 6.5 }).cut).toBe('heel down 6.5 mm, leave toe and sole');
  });

  it('foretells nothing on a film without a scale', () => {
    const { sheet, cut } = planOn(text);
    const tried = new LiveCut({ ...sheet, scale: null }).at(cut, cut.size);
    expect(tried).toMatchObject({ delta: null, after: null, rows: [] });
  });
});
