import { describe, expect, it } from 'vitest';
import { bands } from '../../shared/reference/bands.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { wallBeside } from './feet-by-angle.ts';
import { readFilm } from './readings.ts';

const footOf = (sizes: { horn: number; zone?: number; cortex: number }) =>
  readFilm(caseText(filmText(wallBeside(sizes))));

/**
 * Outer wall to bone over the palmar length of the bone in 415 front feet of 279 horses without laminitis (Equine Vet Educ, about
 * 2020): mean and median 0.25, SD 0.03, middle half 0.23 to 0.26, range 0.19 to 0.36, 42.2 % of feet above 0.25.
 */
describe('wall for the bone in 415 front feet', () => {
  const cortex = 64;
  const at = (share: number) => footOf({ horn: share * cortex, zone: 6, cortex });

  it('0.25 of the cortex is 25 %, the same at all three places of a wall that runs with the bone', () => {
    const foot = at(0.25);
    expect(foot.value('cortex-length')).toBeCloseTo(cortex, 9);
    expect(foot.value('horn-lamellar-share')).toBeCloseTo(25, 9);
    for (const place of ['upper', 'middle', 'lower']) expect(foot.value(`horn-lamellar.${place}`)).toBeCloseTo(16, 9);
    expect(foot.value('capsular-rotation')).toBeCloseTo(0, 9);
  });

  it.each([
    [0.19, 'the lowest of all', []],
    [0.23, 'the lower quarter ends', []],
    [0.26, 'the upper quarter begins', []],
    [0.279, 'just under mean and SD', []],
    [0.281, 'just over mean and SD: within the error', ['hint']],
    [0.309, 'just under mean and two SD', ['info']],
    [0.36, 'the highest of all', ['warning']],
  ] as const)('%d, where %s: %j', (share, _, expected) => {
    const told = at(share).ranges('wall-to-bone');
    expect(told.map(({ severity }) => severity)).toEqual(expected);
    for (const one of told) expect(one.measure).toBe('horn-lamellar-share');
  });

  it('the lines lie at the mean plus one and two SD, each with mean and SD, and the findings name the paper', () => {
    const [noted] = at(0.305).ranges('wall-to-bone');
    const [warned] = at(0.36).ranges('wall-to-bone');
    expect(noted?.limit).toBeCloseTo(100 * (0.25 + 0.03), 9);
    expect(warned?.limit).toBeCloseTo(100 * (0.25 + 2 * 0.03), 9);
    for (const one of [noted, warned]) expect(one?.source).toContain('Mullard');
    // Told in the hover and in the docs.
    const lines = bands.find(({ measure }) => measure === 'horn-lamellar-share')?.thresholds ?? [];
    expect(lines).toHaveLength(2);
    for (const { says } of lines) expect(says).toContain('Mean 25 %, SD 3 %');
  });
});

/**
 * Inner wall to bone at the middle (Skelton and others, Equine Vet J 2025, doi 10.1111/evj.14436): healthy mean 6.9 mm, acute
 * laminitis 8.9 mm; the cuts are 7.5 mm, or 0.11 of the palmar cortex (sensitivity and specificity 95 %).
 */
describe('lamellar zone for the bone in acute laminitis', () => {
  /** The bone for which the paper's two cuts say the same. */
  const cortex = 7.5 / 0.11;
  const at = (zone: number) => footOf({ horn: 17, zone, cortex });

  it.each([6.5, 6.9, 7.2, 7.5, 8.5, 8.9, 9.3])('%d mm come back, and as a share of the cortex', (zone) => {
    const foot = at(zone);
    expect(foot.value('lamellar-zone.middle')).toBeCloseTo(zone, 9);
    expect(foot.value('lamellar-share')).toBeCloseTo((zone / 7.5) * 11, 9);
  });

  it.each([6.5, 6.9, 7.2, 7.49])('%d mm, on the healthy side of both cuts, is not told', (zone) => {
    expect(at(zone).ranges('wall-to-bone')).toEqual([]);
  });

  it.each([
    [7.51, 'info'],
    [8.5, 'warning'],
    [8.9, 'warning'],
    [9.3, 'warning'],
  ] as const)('%d mm, on the other side of both, is told: %s', (zone, severity) => {
    const [finding, ...others] = at(zone).ranges('wall-to-bone');
    expect(others).toEqual([]);
    // One standard deviation of the placings is about 1 %: within it the finding is one level lower.
    expect(finding).toMatchObject({ severity, limit: 11, measure: 'lamellar-share' });
    expect(finding?.message).toContain('95 %');
  });

  it('does not spoil by magnification, as the paper says of the share', () => {
    const text = (magnify: number) =>
      caseText(filmText(wallBeside({ horn: 17, zone: 6.9, cortex }), { more: [`magnify ${magnify}`] }));
    const [plain, large] = [readFilm(text(1)), readFilm(text(1.15))];
    expect(large.value('lamellar-share')).toBeCloseTo(plain.value('lamellar-share'), 9);
    expect(large.value('lamellar-zone.middle')).toBeCloseTo(6.9 / 1.15, 9);
  });
});
