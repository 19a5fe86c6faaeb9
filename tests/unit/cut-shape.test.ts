import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets, type CutSheet } from '../../shared/views/film-sheet.ts';
import { newestCut } from '../../shared/views/newest-cut.ts';
import { cutTitle, plateOf } from '../../shared/views/plate-of.ts';
import { caseText, filmText, type FilmText, type Places } from './plain-foot.ts';

function sheetOf(cut: string, places: Places = {}, film: FilmText = {}) {
  const [sheet] = filmSheets(inspect(caseText(`${filmText(places, film)}\n\n  plan LF\n    ${cut}`)));
  if (!sheet) throw new Error('no sheet');
  return sheet;
}
const after = (...given: Parameters<typeof sheetOf>) => sheetOf(...given).cuts[0]?.after;

describe('a cut in the frame of its foot', () => {
  it('raises the heel end of the ground and brings its toe end back', () => {
    const [heel, toe] = after('heel down 5 mm\n    toe back 3 mm')?.ground ?? [];
    expect(heel?.x).toBeCloseTo(-110, 9);
    expect(heel?.y).toBeCloseTo(5, 9);
    expect(toe?.x).toBeCloseTo(25, 9);
    expect(toe?.y).toBeCloseTo(0, 9);
  });

  it('names the horn that goes with its millimetres', () => {
    const said = (cut: string): unknown => after(cut)?.slivers.map(({ part, text }) => `${part}: ${text}`);
    expect(said('heel down 2 mm')).toEqual(['heel: 2 mm']);
    expect(said('toe down 0.8 mm')).toEqual(['toe: 0.8 mm']);
    expect(said('heel down 1.5 mm\n    toe down 0.5 mm\n    toe back 3 mm')).toEqual([
      'heel: 1.5 mm',
      'toe: 0.5 mm',
      'toe: 3 mm back',
    ]);
    // Level at 3 mm the line passes 2 mm above the sole below the tip, which lies at 1 mm.
    expect(said('heel down 3 mm\n    toe down 3 mm')).toEqual(['heel: 3 mm', 'toe: 3 mm', 'sole: live sole 2.0 mm']);
  });

  it('ends the sliver at the wall of the heel, and takes it straight up where the wall is not placed', () => {
    const heelEnd = (places: Places): number | undefined => after('heel down 2 mm', places)?.slivers[0]?.outline[1]?.x;
    // From (-110, 0) to (-128, 20) the wall leans back 1.8 mm in 2 mm of height, and the line rises a little to meet it.
    expect(heelEnd({})).toBeLessThan(-110 - 1.8);
    expect(heelEnd({})).toBeGreaterThan(-110 - 2);
    expect(heelEnd({ 'heel.upper': undefined })).toBeCloseTo(-110, 9);
  });

  it('keeps to the sole that is placed, be it one place only', () => {
    const soles = (places: Places) =>
      after('heel down 3 mm\n    toe down 3 mm', places)?.slivers.filter(({ part }) => part === 'sole');
    expect(soles({ 'sole.wing': undefined, 'sole.heel': undefined })?.[0]?.outline).toHaveLength(3);
    expect(soles({ 'sole.tip': undefined })).toEqual([]);
    expect(soles({ 'sole.tip': undefined, 'sole.wing': undefined, 'sole.heel': undefined })).toEqual([]);
    expect(soles({ 'sole.heel': [-104, 0] })).toHaveLength(2);
  });

  it('is none without a scale, without a contact, and where nothing is cut', () => {
    expect(after('heel down 5 mm', {}, { scale: null })).toBeNull();
    expect(after('heel down 5 mm', { 'heel.ground': undefined })).toBeNull();
    expect(after('heel down 5 mm', { 'toe.ground': undefined })).toBeNull();
    expect(after('leave toe sole')).toBeNull();
    expect(after('toe back 140 mm')).toBeNull();
  });

  it('is found with two wings, and without a ground segment', () => {
    const straight = after('heel down 5 mm');
    expect(after('heel down 5 mm', { 'p3.wing.other': [-78, 21] })?.ground).toEqual(straight?.ground);
    const [heel] = after('heel down 5 mm', {}, { ground: null })?.ground ?? [];
    expect(heel?.y).toBeCloseTo(5, 9);
  });
});

describe('the plate of a cut', () => {
  it('letters what is measured beside what is predicted, where the two differ', () => {
    const sheet = sheetOf('heel down 5 mm');
    const cut = sheet.cuts[0] ?? null;
    const { labels } = plateOf(sheet, null, { cut });
    const palmar = labels.find(({ measure }) => measure === 'palmar-angle');
    expect(palmar?.after?.value).toBeCloseTo((palmar?.value ?? NaN) - (cut?.delta ?? NaN), 9);
    expect(labels.find(({ measure }) => measure === 'horn-lamellar.upper')?.after).toBeUndefined();
    expect(plateOf(sheet, null).labels.some((label) => label.after)).toBe(false);
    expect(cut && cutTitle(cut)).toBe('Plan of 2026-03-04: heel down 5 mm');
  });

  it('shows the newest cut that can be drawn first, and of one day the plan', () => {
    const some = { ground: [], slivers: [], turned: {} } as unknown as CutSheet['after'];
    const cut = (kind: CutSheet['kind'], date: string, drawn = true): CutSheet =>
      ({ kind, date, after: drawn ? some : null }) as CutSheet;
    const plan = cut('plan', '2026-03-04');
    const trim = cut('trim', '2026-03-04');
    const later = cut('trim', '2026-03-20');
    expect(newestCut([plan, trim])).toBe(plan);
    expect(newestCut([trim, plan])).toBe(plan);
    expect(newestCut([plan, later, trim])).toBe(later);
    expect(newestCut([plan, cut('plan', '2026-04-01', false)])).toBe(plan);
    expect(newestCut([])).toBeNull();
  });
});
