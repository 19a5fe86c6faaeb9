import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt } from '../../shared/findings/limits/planning.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { triedCut } from '../../shared/views/live-sheet.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/** The plain foot with its live sole beside the heel 6 mm up, and nothing else in the way: all sums here are by hand. */
const places: Places = { 'sole.heel': [-104, 6], 'sole.wing': [-80, 8], 'sole.tip': [0, 4] };
const planText = (lines: string, kind = 'plan'): string =>
  caseText(`${filmText(places)}\n\n  ${kind} LF\n    ${lines.split('; ').join('\n    ')}`);
const toldOf = (text: string) => inspect(text).findings.filter(({ code }) => code === 'trim/below-sole-plane');

describe('what comes off one side', () => {
  it('counts at the heel of that side, with what both heels lose', () => {
    // 4 and 3 are 7 mm, 1 mm more than there is; 4 alone and 3 alone are not too much, nor are 3 and 3.
    const text = planText('heel down 4 mm; inside down 3 mm');
    const [found, ...more] = toldOf(text);
    expect(more).toEqual([]);
    expect(found?.message).toMatch(
      /^The inner heel would lose 7\.0 mm, 4\.0 mm with both heels and 3\.0 mm with its own side\. That goes 1\.0 mm below the live sole plane: only 6\.0 ± \d\.\d mm of heel stand beyond it\./,
    );
    expect(found).toMatchObject({ measure: 'heel-surplus', value: 7 });
    expect(text.slice(found?.at.start, found?.at.end)).toBe('3 mm');
    for (const kept of ['heel down 4 mm', 'inside down 3 mm', 'heel down 3 mm; inside down 3 mm'])
      expect(toldOf(planText(kept)), kept).toEqual([]);
  });

  it('is not added to the other side', () => {
    expect(toldOf(planText('inside down 4 mm; outside down 4 mm'))).toEqual([]);
    expect(toldOf(planText('heel down 3 mm; inside down 2 mm; outside down 3 mm'))).toEqual([]);
    const [found] = toldOf(planText('heel down 3 mm; inside down 2 mm; outside down 5 mm'));
    expect(found?.message).toMatch(/^The outer heel would lose 8\.0 mm/);
  });

  it('may be too much without any heel cut; far beyond the error that is an error', () => {
    const [found] = toldOf(planText('outside down 10 mm'));
    expect(found?.message).toMatch(/^The outer heel would lose 10\.0 mm, all of it with its own side\./);
    expect(found?.severity).toBe('error');
    expect(toldOf(planText('outside down 6.5 mm'))[0]?.severity).toBe('warning');
  });

  it('adds up with trims since the film, and a plan leaves room for it', () => {
    const later = (lines: string): string =>
      `${planText('inside down 3 mm', 'trim')}\nvisit 2026-03-20\n  plan LF\n    ${lines}\n`;
    // 3 mm are gone at the inner heel: 3 mm are left there, 6 mm at the outer one.
    expect(toldOf(later('heel down 3 mm'))).toEqual([]);
    expect(toldOf(later('heel down 4 mm'))[0]?.message).toMatch(/^The inner heel would lose 7\.0 mm/);
    expect(toldOf(later('outside down 6 mm'))).toEqual([]);
    expect(toldOf(later('inside down 4 mm'))).toHaveLength(1);
    expect(inspect(later('heel down 1 mm')).findings.filter(({ code }) => code === 'trim/unmeasured')).toEqual([]);

    const { study } = inspect(later('heel down 1 mm'));
    const place = atEnd('LF', study);
    const { plan } = place ? planAt(place, { goal: { kind: 'sole-plane' }, sure: 50 }, study) : { plan: null };
    expect(plan?.size.heelDown).toBe(3);
    expect(plan?.left).toBeCloseTo(0, 9);
  });

  it('of a done trim is told as what is, and nothing is offered', () => {
    const [found] = toldOf(planText('heel down 8 mm; inside down 4 mm', 'trim'));
    expect(found?.message).toMatch(
      /^The inner heel lost 12\.0 mm, 8\.0 mm with both heels and 4\.0 mm with its own side\. That is 6\.0 mm more than stood beyond the live sole plane/,
    );
    expect(found?.fixes).toEqual([]);
  });

  it('has a way out: the heel less, where there is no heel cut the side less', () => {
    const titles = (lines: string) => toldOf(planText(lines))[0]?.fixes.map(({ title }) => title) ?? [];
    expect(titles('heel down 6 mm; inside down 3 mm')[0]).toMatch(/^Lower the heel by \d(\.5)? mm/);
    const [fix] = toldOf(planText('inside down 9 mm'))[0]?.fixes ?? [];
    const [, mm] = /^Lower the inner side by ([\d.]+) mm, the most that breaks no limit$/.exec(fix?.title ?? '') ?? [];
    expect(Number(mm)).toBeGreaterThan(3);
    expect(Number(mm)).toBeLessThan(6);
    expect(fix?.edits.map(({ text }) => text)).toEqual([`${mm} mm`]);
    expect(toldOf(planText(`inside down ${mm} mm`))).toEqual([]);
  });

  it('is said of each heel in the numbers, and in JSON', () => {
    const text = planText('heel down 2 mm; inside down 3 mm');
    const inspection = inspect(text);
    const [sheet] = filmSheets(inspection);
    const [cut] = sheet?.cuts ?? [];
    const heels = cut?.rows.filter(({ measure }) => measure === 'heel-surplus');
    expect(heels?.map(({ words, before, after }) => [words, before, after.replace(/ ±.*/, '')])).toEqual([
      ['heel beyond the live sole plane, inner side', '6.0 mm', '1.0 mm'],
      ['heel beyond the live sole plane, outer side', '6.0 mm', '4.0 mm'],
    ]);
    const plan = measuredCase('x', inspection).visits[0]?.plans[0];
    expect(plan?.heelsleft?.inside).toBeCloseTo(1, 9);
    expect(plan?.heelsleft?.outside).toBeCloseTo(4, 9);
    expect(plan).not.toHaveProperty('sides');
    // The slider keeps the side, and tells by the same limit.
    if (!sheet || !cut) throw new Error('no plan');
    const tried = triedCut(sheet, cut, { ...cut.size, heelDown: 4 });
    expect(tried.cut).toBe('heel down 4 mm, inside down 3 mm');
    expect(tried.broken).toEqual(['1.0 mm below the live sole plane at the heel']);
  });

  it('changes nothing that is seen from the side', () => {
    const angle = (lines: string) => inspect(planText(lines)).study.cuts[0]?.prediction?.value('palmar-angle')?.value;
    expect(angle('heel down 2 mm; inside down 3 mm')).toBe(angle('heel down 2 mm'));
  });

  it('is held against the tape where there is no film', () => {
    const byHand = (lines: string) =>
      inspect(
        `hoof 1\nvisit 2026-03-04\n  tape LF\n    heel-surplus 6 mm\n  plan LF\n    ${lines.split('; ').join('\n    ')}\n`,
      ).findings.filter(({ code }) => code === 'trim/by-hand');
    // A hand's error is 2 mm: told beyond 6 + 1.96 × 2 = 9.9 mm.
    expect(byHand('heel down 6 mm; inside down 3 mm')).toEqual([]);
    const [found] = byHand('heel down 6 mm; inside down 5 mm');
    expect(found?.message).toMatch(
      /^The inner heel would lose 11\.0 mm with its side, 5\.0 mm more than stand beyond the live sole plane by hand: 6\.0 ± 2\.0 mm\./,
    );
    expect(byHand('heel down 11 mm')[0]?.message).toMatch(/^A heel cut of 11\.0 mm goes 5\.0 mm below/);
  });
});
