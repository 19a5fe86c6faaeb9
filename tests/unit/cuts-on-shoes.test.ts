import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { caseText, filmText } from './plain-foot.ts';

/** The foot stands on a shoe of 10 mm whose bearing plane is not placed: its live sole beside the heel lies 16 mm over the ground. */
const on = (places: Parameters<typeof filmText>[0] = {}): string =>
  filmText({ 'sole.heel': [-104, 16], 'sole.tip': [0, 12], 'p3.tip': [0, 27], 'p3.wing': [-80, 34], ...places });
const told = (body: string, code: string) => inspect(caseText(body)).findings.filter((one) => one.code === code);
const cut = (words: string, wears = 'shoe LF 10 mm', places = {}): string =>
  `  ${wears}\n\n${on(places)}\n\n  ${words.replace(' down', '\n    heel down')}\n`;

describe('a heel cut on a shod foot without its bearing plane', () => {
  it('is an error where it is deeper than live sole is from what the heel stands on, by whatever it stands on', () => {
    const [found, ...others] = told(cut('trim LF down 20 mm', 'shoe LF'), 'trim/heel-since-film');
    expect(others).toEqual([]);
    expect(found?.severity).toBe('error');
    expect(found?.message).toMatch(
      /^The heel lost 20\.0 mm on a shod foot: between its live sole and what it stands on lie no more than 16\.0 ± \d\.\d mm\. Place `bearing`/,
    );
  });

  it('is a warning where only the shoe as written makes it too deep: 16 mm less 10 are 6', () => {
    const [found] = told(cut('plan LF down 12 mm'), 'trim/heel-since-film');
    expect(found?.severity).toBe('warning');
    expect(found?.limit).toBeCloseTo(6, 6);
    expect(told(cut('plan LF down 5 mm'), 'trim/heel-since-film')).toEqual([]);
    // A shoe of a thickness that is not written may be thin.
    expect(told(cut('plan LF down 12 mm', 'shoe LF'), 'trim/heel-since-film')).toEqual([]);
  });

  it('counts what came off since the film, and the hoof’s own contact as it is placed', () => {
    const twice = `${cut('trim LF down 9 mm', 'shoe LF')}\n  trim LF\n    heel down 9 mm\n`;
    expect(told(twice, 'trim/heel-since-film').map(({ message }) => message)).toEqual([
      expect.stringMatching(/^The heel lost 18\.0 mm with the trim of 4 March 2026 on a shod foot/),
    ]);
    const atHoof = cut('trim LF down 9 mm', 'shoe LF 10 mm', { 'heel.ground': [-110, 10], 'toe.ground': [28, 10] });
    expect(told(atHoof, 'trim/heel-since-film')[0]?.severity).toBe('error');
  });

  it('counts what comes off a side at its heel', () => {
    const sides = (inside: number, outside: number): string =>
      `  shoe LF\n\n${on()}\n\n  trim LF\n    inside down ${inside} mm\n    outside down ${outside} mm\n`;
    expect(told(sides(20, 1), 'trim/heel-since-film')).toHaveLength(1);
    expect(told(sides(20, 20), 'trim/heel-since-film')).toHaveLength(1);
    expect(told(sides(10, 10), 'trim/heel-since-film')).toEqual([]);
  });

  it('is left to the measures where the bearing plane is placed, and of a bare foot', () => {
    const placed = `  shoe LF 10 mm\n\n${filmText({}, { ground: 'ground 0, 1100 .. 2000, 1100', more: ['bearing 0, 1000 .. 2000, 1000'] })}\n\n  trim LF\n    heel down 20 mm\n`;
    expect(told(placed, 'trim/heel-since-film')).toEqual([]);
    expect(told(placed, 'trim/below-sole-plane')).toHaveLength(1);
    expect(told(`${on()}\n\n  trim LF\n    heel down 20 mm\n`, 'trim/heel-since-film')).toEqual([]);
  });
});

describe('a heel cut after a trim on two planes', () => {
  const film = filmText({ 'sole.heel': [-105, 12], 'sole.tip': [0, 14], 'sole.wing': [-80, 15] });
  const bent = '  trim LF\n    heel down 8 mm from 90 mm\n';
  it('is an error where the heel has lost more than stood beyond the live sole plane: 12 mm', () => {
    const [found] = told(`${film}\n\n${bent}\n  trim LF\n    heel down 9 mm\n`, 'trim/heel-since-film');
    expect(found?.severity).toBe('error');
    expect(found?.message).toMatch(
      /^The heel lost 17\.0 mm with the trim of 4 March 2026 since the film, on which 12\.0 ± \d\.\d mm stood beyond the live sole plane\. Protect the heels/,
    );
    expect(told(`${film}\n\n${bent}\n  trim LF\n    inside down 9 mm\n`, 'trim/heel-since-film')).toHaveLength(1);
  });

  it('is left alone where it may still be within', () => {
    expect(told(`${film}\n\n${bent}\n  trim LF\n    heel down 4 mm\n`, 'trim/heel-since-film')).toEqual([]);
    expect(told(`${film}\n\n${bent}`, 'trim/heel-since-film')).toEqual([]);
  });
});

describe('the palmar angle on a written wedge without the bearing plane', () => {
  const angle = (mm: number, wears: string): ReturnType<typeof told> =>
    told(`  ${wears}\n\n${on({ 'p3.wing': [-80, 27 + mm] })}\n`, 'range/palmar-angle');

  it('is judged as the foot would stand bare: atan(3 / 80) = 2.1° less a wedge of 6°', () => {
    const [found] = angle(3, 'shoe LF 10 mm wedge 6 deg');
    expect(found?.value).toBeCloseTo((Math.atan2(3, 80) * 180) / Math.PI - 6, 6);
    expect(found?.message).toContain('−3.9 ± ');
    expect(found?.message).toContain(
      'Reckoned from 2.1° to the ground and the wedge of 6.0° as written, since `bearing` is not placed.',
    );
    expect(angle(3, 'shoe LF 10 mm')).toEqual([]);
  });

  it('is one finding where both lie too low', () => {
    const found = angle(-2, 'shoe LF 10 mm wedge 3 deg');
    expect(found).toHaveLength(1);
    expect(found[0]?.message).toContain('To the ground −1.4°');
    expect(found[0]?.message).toContain('to the bearing plane −4.4°');
  });
});

describe('a measure that stands in one tape twice', () => {
  it('is told, and the first counts', () => {
    const text = '  tape LF\n    heel-height 40 mm\n    heel-height 20 mm\n';
    expect(told(text, 'record/duplicate-word').map(({ message }) => message)).toEqual([
      '«heel-height» is said twice here; the first counts. Keep one of the two lines.',
    ]);
    // Two tapes of one foot are two takings, as before and after a trim.
    expect(
      told('  tape LF\n    heel-height 40 mm\n\n  tape LF\n    heel-height 20 mm\n', 'record/duplicate-word'),
    ).toEqual([]);
  });
});
