import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { bands } from '../../shared/reference/bands.ts';

const told = (lines: string) =>
  inspect(`hoof 1\n\ncase "X"\n  animal horse mare\n\nvisit 2026-03-04\n${lines}\n`).findings.filter(
    ({ code }) => code === 'tape/thin-sole',
  );
const taped = (mm: number): string => `  tape LF\n    sole-ultrasound ${mm} mm`;

/** 7 mm: Taylor and others 2014, as quoted; 12 mm: taught. The hand's error is 1 mm, so that 1.96 mm make a value clear. */
describe('a sole by ultrasound', () => {
  it('goes by the lines of the sole on a film', () => {
    const lines = bands.find(({ measure }) => measure === 'sole-depth.tip')?.thresholds.map(({ at }) => at);
    expect(lines).toEqual([7, 12]);
    const severity = (mm: number, grade: string): string | undefined => told(`  ${grade}\n${taped(mm)}`)[0]?.severity;
    expect([12, 11, 10, 6, 5, 3].map((mm) => severity(mm, 'obel 0'))).toEqual([
      undefined,
      undefined,
      'info',
      'info',
      'warning',
      'warning',
    ]);
    expect([6, 5].map((mm) => severity(mm, 'obel 2'))).toEqual(['warning', 'error']);
    expect([6, 5].map((mm) => severity(mm, 'weight 500 kg'))).toEqual(['warning', 'error']);
  });

  it('says what it is, and what to do', () => {
    const [found] = told(`  obel 2\n${taped(4)}`);
    expect(found?.message).toBe(
      'Sole by ultrasound, left fore: 4.0 ± 1.0 mm, under 7 mm, the line of the same layer on a film. Protect the foot, and take none of the sole. The animal is lame (Obel grade 2).',
    );
  });

  it('is judged by the newest of each foot, and the thinner of one day', () => {
    expect(told(`${taped(4)}\n\nvisit 2026-05-04\n${taped(14)}`)).toEqual([]);
    expect(told(`${taped(14)}\n${taped(4)}`)).toHaveLength(1);
    expect(told(`${taped(4)}\n\nvisit 2026-05-04\n  tape RF\n    sole-ultrasound 14 mm`)).toHaveLength(1);
  });
});
