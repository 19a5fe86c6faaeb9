import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt } from '../../shared/findings/limits/planning.ts';
import { caseText, filmText } from './plain-foot.ts';

/**
 * The plain foot stands on 138 mm from heel to toe. That one visit turns the bone by no more than 5° and takes no more than 10 mm of
 * heel are a judgement and common practice, without a source. The angles are worked out by hand: atan2(7, 138) = 2.904°.
 */
const film = filmText({ 'sole.heel': [-105, 30], 'sole.tip': [0, 14], 'sole.wing': [-80, 22] });
const trim = (mm: number): string => `\n  trim LF\n    heel down ${mm} mm\n`;
const turn = (heel: number, length = 138): number => (Math.atan2(heel, length) * 180) / Math.PI;
const told = (text: string, code: string) => inspect(text).findings.filter((one) => one.code === code);
const turned = (text: string): number[] =>
  told(text, 'trim/turn-per-visit').map(({ value }) => Math.round(Number(value) * 1000) / 1000);
const round = (value: number): number => Math.round(value * 1000) / 1000;

describe('what one visit may do', () => {
  it('holds for all trims of the foot on that day together', () => {
    expect(turned(caseText(`${film}\n${trim(7)}`))).toEqual([]);
    const both = round(turn(7) + turn(7, Math.hypot(7, 138)));
    const twice = caseText(`${film}\n${trim(7)}${trim(7)}`);
    expect(turned(twice)).toEqual([both]);
    expect(told(twice, 'trim/turn-per-visit')[0]?.message).toBe(
      'With the trim of 4 March 2026 this trim turned the bone by 5.8° in one visit, more than 5° (a judgement, no source).',
    );
    expect(told(twice, 'trim/heel-per-visit').map(({ message }) => message)).toEqual([
      expect.stringMatching(
        /^14\.0 mm of heel, with the trim of 4 March 2026, were taken in one visit; many take no more/,
      ),
    ]);
    // Two blocks of one day are one visit.
    expect(turned(`${caseText(`${film}\n${trim(7)}`)}\nvisit 2026-03-04\n${trim(7)}`)).toEqual([both]);
  });

  it('does not add up from one day to the next, nor from foot to foot', () => {
    expect(turned(`${caseText(`${film}\n${trim(7)}`)}\nvisit 2026-03-05\n${trim(7)}`)).toEqual([]);
    const others = caseText(`${film}\n${trim(7).replace('LF', 'RF')}${trim(7)}`);
    expect(turned(others)).toEqual([]);
    expect(told(others, 'trim/heel-per-visit')).toEqual([]);
  });

  it('counts what came off before a second film of the day, by the length of that film', () => {
    const between = film.replace('film LF lateral "', 'film LF lateral "second-');
    const text = caseText(`${film}\n${trim(7)}\n${between}\n${trim(7)}`);
    expect(turned(text)).toEqual([round(2 * turn(7))]);
  });

  it('is lost only by what turns the bone on, and a trim that turns it back is none', () => {
    const back = caseText(`${film}\n${trim(9)}\n  trim LF\n    toe down 4 mm\n`);
    expect(turned(back)).toEqual([]);
  });

  it('leaves a plan below a trim alone: that one is for the visit after', () => {
    expect(turned(caseText(`${film}\n${trim(7)}${trim(7).replace('trim', 'plan')}`))).toEqual([]);
  });

  it('holds for what a plan would take on its own', () => {
    const { study } = inspect(caseText(`${film}\n${trim(1)}`));
    const place = atEnd('LF', study);
    const planned = place && planAt(place, { goal: { kind: 'most' }, sure: 50 }, study);
    const heel = planned?.plan?.size.heelDown ?? 0;
    expect(heel).toBeGreaterThan(5);
    expect(turn(heel, Math.hypot(1, 138))).toBeLessThanOrEqual(5);
  });

  it('goes by what a hand took where there is no film: the heel since the tape, the turn of the day', () => {
    const tape = '  tape LF\n    heel-height 40 mm\n    heel-surplus 10 mm\n    bearing-length 130 mm\n';
    const codes = (body: string): string[] => told(caseText(body), 'trim/by-hand').map(({ message }) => message);
    expect(codes(`${tape}${trim(8)}`)).toEqual([]);
    expect(codes(`${tape}${trim(8)}${trim(8)}`)).toEqual([
      expect.stringMatching(/^16\.0 mm of heel were taken, with the trim of 4 March 2026, 6\.0 mm more than stood/),
    ]);
    // A tape that was taken between the two shows the foot without the first.
    expect(codes(`${trim(8)}${tape}${trim(8)}`).filter((one) => one.includes('live sole'))).toEqual([]);
    expect(codes(`${trim(8)}${tape}${trim(8)}`)).toEqual([
      expect.stringMatching(/ turned the foot by 7\.0° in one visit/),
    ]);
  });
});

describe('the toe brought back', () => {
  it('takes nothing of a sole that lies below the wall: the foot stands where it stood', () => {
    const low = filmText({ 'sole.tip': [0, -3] });
    const [cut] = inspect(caseText(`${low}\n\n  trim LF\n    toe back 2 mm\n`)).study.cuts;
    expect(cut?.prediction?.soleCut).toEqual({ tip: 0, wing: 0, heel: 0 });
    expect(cut?.prediction?.value('sole-depth.tip')?.value).toBeCloseTo(
      cut?.before?.get('sole-depth.tip')?.value ?? NaN,
      9,
    );
  });
});

describe('both sides down', () => {
  const sides = (inside: number, outside: number): string =>
    caseText(`${film}\n\n  trim LF\n    inside down ${inside} mm\n    outside down ${outside} mm\n`);
  it('lower the whole foot, heel and toe alike, and every limit sees it', () => {
    const [cut] = inspect(sides(6, 6)).study.cuts;
    expect(cut?.prediction?.delta).toBeCloseTo(0, 9);
    // 14 mm of bone over the sole stay, until the ground comes up to it.
    expect(cut?.prediction?.value('toe-length')?.value).toBeLessThan((cut?.before?.get('toe-length')?.value ?? 0) - 3);
    expect(told(sides(20, 20), 'trim/live-sole')).toHaveLength(1);
  });

  it('count where each comes down in a block of its own, from when on both are down', () => {
    const apart = caseText(`${film}\n\n  trim LF\n    inside down 20 mm\n\n  trim LF\n    outside down 20 mm\n`);
    expect(told(apart, 'trim/live-sole')).toHaveLength(1);
    const [first, second] = inspect(apart).study.cuts;
    const [, both] = [0, inspect(sides(20, 20)).study.cuts[0]];
    expect(first?.prediction?.value('toe-length')?.value).toBeCloseTo(
      first?.before?.get('toe-length')?.value ?? NaN,
      9,
    );
    expect(second?.prediction?.value('toe-length')?.value).toBeCloseTo(
      both?.prediction?.value('toe-length')?.value ?? NaN,
      9,
    );
  });

  it('come off the heel once: 4 and 7 of 12 mm leave one', () => {
    const deep = filmText({
      'sole.heel': [-105, 12],
      'sole.tip': [0, 14],
      'sole.wing': [-80, 15],
      'p3.tip': [0, 30],
      'p3.wing': [-80, 37],
    });
    const both = (more: string): string =>
      caseText(`${deep}\n\n  trim LF\n    inside down 4 mm\n    outside down 4 mm\n\n  trim LF\n    ${more}\n`);
    expect(told(both('heel down 7 mm'), 'trim/below-sole-plane')).toEqual([]);
    expect(told(both('heel down 9 mm'), 'trim/below-sole-plane')).toHaveLength(1);
    // What one side lost more counts on, and the outlook has it too.
    expect(told(both('inside down 9 mm'), 'trim/below-sole-plane')).toHaveLength(1);
    const { study } = inspect(caseText(`${deep}\n\n  trim LF\n    inside down 10 mm\n`));
    const place = atEnd('LF', study);
    const planned = place && planAt(place, { goal: { kind: 'sole-plane' }, sure: 50 }, study);
    expect(planned?.plan?.size.heelDown).toBe(2);
    expect(planned?.plan?.outlook).toBeNull();
  });

  it('count by what both lose; what one loses more is its own', () => {
    const [cut] = inspect(sides(6, 2)).study.cuts;
    const [down] = inspect(caseText(`${film}\n\n  trim LF\n    heel down 2 mm\n    toe down 2 mm\n`)).study.cuts;
    const values = (one: typeof cut) =>
      [...(one?.prediction?.values ?? [])].map(([name, { value }]) => [name, round(value)]);
    expect(values(cut)).toEqual(values(down));
  });
});
