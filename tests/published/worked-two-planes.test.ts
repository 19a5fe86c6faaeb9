import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt } from '../../shared/findings/limits/planning.ts';
import { planBlock, sayBothOdds } from '../../shared/edits/plan-notation.ts';
import { judgeOn } from '../../shared/findings/limits/cut-limits.ts';
import { workedCase } from './worked-foot.ts';

/** The plan on two planes that `docs/model.md` works out on paper, on the foot of its plan on one; the arithmetic is that of the page. */

const page = readFileSync(new URL('../../docs/model.md', import.meta.url), 'utf8').replaceAll(/\s+/g, ' ');
const degrees = 180 / Math.PI;
const { study } = inspect(workedCase);

function planned(sure: number) {
  const place = atEnd('LF', study);
  const { plan, says } = place
    ? planAt(place, { goal: { kind: 'sole-plane' }, sure, twoPlanes: true }, study)
    : { plan: null, says: '' };
  if (!plan) throw new Error(says);
  return plan;
}

/** What is left under the tip, by the line from H' to P, without the turn of the line. */
const underTip = (heel: number, from: number): number => 2 - (heel * (from - 110)) / from;

describe('the worked plan on two planes', () => {
  const plan = planned(90);

  it('is what the program says and writes, surely and at even odds', () => {
    expect(plan.size).toEqual({ heelDown: 10, heelFrom: 120, toeDown: 0, toeBack: 0 });
    expect(sayBothOdds(plan)).toBe('10 mm from 120 mm');
    expect(planBlock('LF', plan, { isUnshod: false })).toContain('    heel  down 10 mm from 120 mm\n');
    expect(planned(50).size).toMatchObject({ heelDown: 11, heelFrom: 130 });
    expect(page).toContain('`heel down 10 mm from 120 mm` puts P at 10');
    expect(page).toContain('At even odds it is 11 mm from 130 mm');
    expect(plan.outlook).toBeNull();
  });

  it('leaves the two palmar angles of the page', () => {
    const before = Math.atan2(14, 80) * degrees;
    const onHeels = before - Math.atan2(10, 120) * degrees;
    expect(plan.prediction.delta).toBeCloseTo(Math.atan2(10, 120) * degrees, 9);
    expect(plan.prediction.value('palmar-angle')?.value).toBeCloseTo(onHeels, 9);
    expect(plan.prediction.onToe?.delta).toBe(0);
    expect(plan.prediction.onToe?.value('palmar-angle')?.value).toBeCloseTo(before, 9);
    expect([onHeels.toFixed(2), before.toFixed(2)]).toEqual(['5.16', '9.93']);
  });

  it('leaves live sole what the page says, by the same uncertainty', () => {
    const [film] = study.films;
    const frame = film?.readings[0]?.taking.frame;
    if (!frame) throw new Error('no frame');
    const judge = judgeOn({ frame, earlier: [] }, 'LF', study, film.day);
    const margin = (place: string, heelDown: number, heelFrom: number) =>
      judge
        .of({ heelDown, heelFrom, toeDown: 0, toeBack: 0 })
        ?.margins.find((one) => one.code === 'trim/live-sole' && one.place === place);
    // Square to the line: by the cosine of under 5°.
    expect(margin('tip', 10, 120)?.value).toBeCloseTo(underTip(10, 120), 2);
    expect(margin('tip', 10, 120)?.sd).toBeCloseTo(0.5 * Math.hypot(1, 0.3, 0.7), 1);
    expect(margin('wing', 10, 120)?.value).toBeCloseTo(10 - 7.5, 1);
    expect(margin('heel', 10, 120)?.value).toBeCloseTo(12 - 9.5, 1);
    expect(margin('tip', 10.5, 125)?.value).toBeCloseTo(underTip(10.5, 125), 2);
    expect(underTip(11, 130).toFixed(2)).toBe('0.31');
    expect(underTip(11.5, 135).toFixed(2)).toBe('-0.13');
    // 10.5 mm turn the foot by more than 5° from 120 mm, and by less from 125 mm.
    expect(10.5 / Math.tan(5 / degrees)).toBeGreaterThan(120);
    const turn = judge.of({ heelDown: 10, heelFrom: 120, toeDown: 0, toeBack: 0 })?.margins;
    expect(turn?.find(({ code }) => code === 'trim/turn-per-visit')?.sd).toBeLessThan(1e-9);
    // 97 and 88 of 100: the normal distribution at 1.86 and 1.17 standard deviations (0.9686 and 0.8790, Abramowitz and Stegun 1964,
    // table 26.1). All limits together hold a little seldomer.
    expect((1.17 / 0.63).toFixed(2)).toBe('1.86');
    expect((0.74 / 0.63).toFixed(2)).toBe('1.17');
    const chance = (heelDown: number, heelFrom: number): number =>
      judge.chance({ heelDown, heelFrom, toeDown: 0, toeBack: 0 }) ?? NaN;
    expect(chance(10, 120)).toBeLessThan(0.9686 + 0.006);
    expect(chance(10, 120)).toBeCloseTo(0.96, 2);
    expect(chance(10.5, 125)).toBeLessThan(0.879 + 0.01);
    expect(chance(10.5, 125)).toBeGreaterThan(0.83);
  });
});
