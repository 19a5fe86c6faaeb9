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
    expect(sole(15.5, 'sole-depth.tip >= 16 mm').map(({ severity, limit }) => [severity, limit])).toEqual([
      ['warning', 16],
    ]);
    expect(sole(9, 'sole-depth.tip >= 16 mm').map(({ severity, limit }) => [severity, limit])).toEqual([['error', 10]]);
  });

  it('loosens only with a reason, which stays visible', () => {
    expect(
      sole(12, 'sole-depth.tip >= 11 mm because "agreed with the vet"').map(({ code, severity }) => [code, severity]),
    ).toEqual([['limits/loosened', 'info']]);
    expect(sole(12, 'sole-depth.tip >= 11 mm').map(({ code, severity }) => [code, severity])).toEqual([
      ['limits/loosened', 'warning'],
      ['range/sole-depth.tip', 'warning'],
    ]);
    expect(sole(9, 'sole-depth.tip >= 8 mm').map(({ code, severity }) => [code, severity])).toEqual([
      ['limits/loosened', 'warning'],
      ['range/sole-depth.tip', 'error'],
    ]);
  });

  it('is named with its reason and shown beside the value', () => {
    const [finding] = sole(15.5, 'sole-depth.tip >= 16 mm because "thin last year"').filter(
      ({ code }) => code === 'range/sole-depth.tip',
    );
    expect(finding?.source).toBe('limit of this case: thin last year');
    expect(finding?.related).toHaveLength(1);
  });
});

describe('length limits', () => {
  it('shrink with withers height below 148 cm, and say so; angles do not', () => {
    expect(lengthFactor({ kind: 'pony', heightMm: 1110 })).toBeCloseTo(0.75, 9);
    expect(lengthFactor({ kind: 'horse', heightMm: 1650 })).toBe(1);
    expect(bandFor('sole-depth.tip', 'LF', { kind: 'pony', heightMm: 1110 })?.cuts.map(({ at }) => at)).toEqual([
      7.5, 11.25,
    ]);
    expect(bandFor('palmar-angle', 'LF', { kind: 'pony', heightMm: 1110 })?.cuts.map(({ at }) => at)).toEqual([2, 10]);
    const small = findingsOf(
      caseText(filmText({ 'sole.tip': [0, 5] }), { animal: 'animal pony mare\n  height 111 cm' }),
    ).filter(({ code }) => code === 'range/sole-depth.tip');
    expect(small.map(({ limit, severity }) => [limit, severity])).toEqual([[11.25, 'warning']]);
    expect(small[0]?.message).toContain('scaled to 111 cm');
  });

  it('of a donkey are a donkey’s', () => {
    expect(
      bandFor('palmar-angle', 'RF', { kind: 'donkey', heightMm: null })?.cuts.map(({ at, source }) => [at, source]),
    ).toEqual([[11, 'collins']]);
    expect(
      bandFor('palmar-angle', 'RH', { kind: 'horse', heightMm: null })?.cuts.map(({ at, source }) => [at, source]),
    ).toEqual([[0, 'clements']]);
  });
});
