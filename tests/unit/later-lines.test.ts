import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/** Live sole 4 mm above the ground beside the heel. */
const low: Places = { 'sole.heel': [-104, 4], 'sole.tip': [0, 4] };

const told = (text: string, code: string): string[] =>
  inspect(text)
    .findings.filter((one) => one.code === code)
    .map(({ severity }) => severity);

describe('what was cut that is alive', () => {
  const cut = `${filmText(low)}\n  trim LF\n    heel down 15 mm`;

  it('is told', () => {
    expect(told(caseText(cut), 'trim/below-sole-plane')).toEqual(['error']);
  });

  it.each([
    ['a trim of nothing', '  trim LF\n    heel down 0 mm'],
    ['a little more', '  trim LF\n    heel down 1 mm'],
    ['a toe that is brought back', '  trim LF\n    toe back 1 mm'],
    ['the same on another day', '\nvisit 2026-03-05\n  trim LF\n    toe back 1 mm'],
    ['a plan for the next visit', '\nvisit 2026-03-05\n  plan LF\n    heel down 1 mm'],
  ])('is silenced by no later line: %s', (_, later) => {
    expect(told(caseText(`${cut}\n${later}`), 'trim/below-sole-plane')).toContain('error');
  });

  it('is past where the next film shows the foot', () => {
    const filmed = caseText(`${cut}\n\nvisit 2026-04-01\n${filmText(low)}`);
    expect(told(filmed, 'trim/below-sole-plane')).toEqual(['hint']);
  });
});

describe('a grave grade', () => {
  const grave = '  obel 4\n';

  it.each([
    ['a visit of an earlier day, by a slip in the year', 'visit 2025-03-18'],
    ['a second look on the same day', 'visit 2026-03-04'],
  ])('is not better by %s', (_, header) => {
    expect(told(caseText(`${grave}\n${header}\n  obel 0`), 'visit/call-the-vet')).toEqual(['error']);
  });

  it('is better by a visit of a later day', () => {
    expect(told(caseText(`${grave}\nvisit 2026-03-18\n  obel 0`), 'visit/call-the-vet')).toEqual(['hint']);
  });
});

describe('a line of signs that is not understood', () => {
  it.each(['sign fever, recumbent', 'sign: fever', 'sign "fever"', 'signs fever', 'sign fevr; recumbent'])(
    'calls the vet all the same: %s',
    (line) => {
      const { findings } = inspect(caseText(`  ${line}`));
      expect(findings.filter(({ code }) => code === 'visit/call-the-vet').map(({ severity }) => severity)).toEqual([
        'error',
      ]);
      // And the slip is told.
      expect(findings.some(({ code }) => code.startsWith('notation/'))).toBe(true);
    },
  );

  it('finds none where none is named', () => {
    expect(told(caseText('  sign: none that I saw'), 'visit/call-the-vet')).toEqual([]);
  });
});
