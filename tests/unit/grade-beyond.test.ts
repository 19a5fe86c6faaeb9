import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { caseText } from './plain-foot.ts';

/** A grade of lameness that no scale has still calls the vet, in words and never as a number that is none. */

const nines = (count: number): string => '9'.repeat(count);

describe('a grade of lameness far beyond the scale', () => {
  it.each(['11', '45', nines(25), nines(26), nines(400), `-${nines(400)}`, '1e308', `"${nines(400)}"`])(
    'obel %s',
    (written) => {
      const inspection = inspect(caseText(`  obel ${written}\n  plan LF\n    heel down 1 mm`));
      const call = inspection.findings.find(({ code }) => code === 'visit/call-the-vet');
      const plan = inspection.findings.find(({ code }) => code === 'trim/no-vet');
      expect(call).toMatchObject({ severity: 'error' });
      expect(call?.message).toContain('Call the vet today: Obel grade above 4 (as written');
      expect(plan?.message).toContain('The lameness is Obel grade above 4 ');
      const json = JSON.stringify([inspection.findings, inspection.study.record, measuredCase('x.hoof', inspection)]);
      expect(json).not.toMatch(/"value":null,"limit"|Infinity|1e\+|9{26}/);
      for (const finding of [call, plan]) expect(Number.isFinite(finding?.value ?? 0)).toBe(true);
    },
  );

  it.each(['5', '3.5', '10'])('obel %s is said as it is written', (written) => {
    const { findings } = inspect(caseText(`  obel ${written}`));
    expect(findings.find(({ code }) => code === 'visit/call-the-vet')?.message).toContain(`Obel grade ${written} (as`);
  });
});
