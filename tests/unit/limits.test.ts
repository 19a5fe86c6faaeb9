import { describe, expect, it } from 'vitest';
import { bandFor, lengthFactor } from '../../shared/reference/bands.ts';
import { caseText, filmText } from './plain-foot.ts';
import { findingsOf } from './marked-text.ts';

const sole = (depth: number, limits: string, animal?: string) =>
  findingsOf(
    caseText(filmText({ 'sole.tip': [0, 16 - depth] }), {
      limits: `\nlimits\n  ${limits}\n`,
      ...(animal && { animal }),
    }),
  ).filter(({ code }) => code === 'range/sole-depth.tip' || code === 'limits/loosened');

describe('a limit of the case', () => {
  it('tightens freely, and an error-level limit beyond it stays', () => {
    expect(sole(14, 'sole-depth.tip >= 16 mm').map(({ severity, limit }) => [severity, limit])).toEqual([
      ['warning', 16],
    ]);
    const founder = (limit: string) =>
      findingsOf(caseText(filmText({ 'wall.top': [-18, 74] }), { limits: `\nlimits\n  ${limit}\n` }))
        .filter(({ measure }) => measure === 'founder-distance')
        .map(({ severity, limit: at }) => [severity, at]);
    expect(founder('founder-distance <= 6 mm')).toEqual([['error', 15]]);
  });

  it('loosens only with a reason, which stays visible', () => {
    expect(
      sole(10, 'sole-depth.tip >= 9 mm because "agreed with the vet"').map(({ code, severity }) => [code, severity]),
    ).toEqual([['limits/loosened', 'info']]);
    expect(sole(10, 'sole-depth.tip >= 9 mm').map(({ code, severity }) => [code, severity])).toEqual([
      ['limits/loosened', 'warning'],
      ['range/sole-depth.tip', 'info'],
    ]);
  });

  it('is named with its reason and shown beside the value', () => {
    const [finding] = sole(14, 'sole-depth.tip >= 16 mm because "thin last year"').filter(
      ({ code }) => code === 'range/sole-depth.tip',
    );
    expect(finding?.source).toBe('limit of this case: thin last year');
    expect(finding?.related).toHaveLength(1);
  });
});

describe('length limits', () => {
  it('that are high shrink with withers height below 148 cm, and say so; low ones and angles do not', () => {
    expect(lengthFactor({ kind: 'pony', heightMm: 1110 })).toBeCloseTo(0.75, 9);
    expect(lengthFactor({ kind: 'horse', heightMm: 1650 })).toBe(1);
    expect(bandFor('sole-depth.tip', 'LF', { kind: 'pony', heightMm: 1110 })?.thresholds.map(({ at }) => at)).toEqual([
      7, 12,
    ]);
    expect(bandFor('founder-distance', 'LF', { kind: 'pony', heightMm: 1110 })?.thresholds.map(({ at }) => at)).toEqual(
      [15, 11.25, 6],
    );
    expect(bandFor('palmar-angle', 'LF', { kind: 'pony', heightMm: 1110 })?.thresholds.map(({ at }) => at)).toEqual([
      2, 10,
    ]);
    const small = findingsOf(
      caseText(filmText({ 'wall.top': [-18, 64] }), { animal: 'animal pony mare\n  height 111 cm' }),
    ).filter(({ code }) => code === 'range/low-in-capsule');
    expect(small.map(({ limit, severity }) => [limit, severity])).toEqual([[6, 'warning']]);
    expect(small[0]?.message).toContain('scaled by height, to 111 cm at the withers, and probably too strict');
  });

  it('of a donkey are a donkey’s', () => {
    expect(
      bandFor('palmar-angle', 'RF', { kind: 'donkey', heightMm: null })?.thresholds.map(({ at, source }) => [
        at,
        source,
      ]),
    ).toEqual([[10, 'collins']]);
    for (const measure of ['founder-distance', 'coronet-extensor'] as const)
      expect(bandFor(measure, 'RF', { kind: 'donkey', heightMm: 1080 }), measure).toBeUndefined();
    expect(
      bandFor('palmar-angle', 'RH', { kind: 'horse', heightMm: null })?.thresholds.map(({ at, source }) => [
        at,
        source,
      ]),
    ).toEqual([
      [0, 'clements'],
      [10, 'textbook'],
    ]);
  });
});
