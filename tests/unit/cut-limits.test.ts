import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { hover } from '../../server/features/hover.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { cutRules } from '../../shared/findings/limits/cut-rules.ts';
import { sayBroken, sayStops } from '../../shared/findings/wording/say-cut.ts';
import { cutLimits, type CutFigures, type Margin } from '../../shared/trim/cut-limits.ts';
import { chanceOfNoneBelow } from '../../shared/trim/chance.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { triedCut } from '../../shared/views/live-sheet.ts';
import { caseText, filmText } from './plain-foot.ts';

const figures: CutFigures = {
  turn: 5,
  horn: 5,
  palmarAngle: 2,
  soleTip: 12,
  soleWing: null,
  rotation: 5.5,
  agreed: [],
};

describe('the limits of cuts', () => {
  it('have a rule each that tells of them, and words for what stops a cut', () => {
    const codes = cutLimits.map(({ code }) => code);
    expect(cutRules.map(({ code }) => code)).toEqual(codes);
    const agreed = { measure: 'heel-height', side: 'low', at: 20 } as const;
    for (const code of codes) {
      const margin: Margin = { code, place: null, agreed, value: -1, sd: 0.5, lost: true, broken: true };
      expect(
        sayBroken([margin], {})
          .concat(sayStops([margin], figures, {}))
          .join(),
        code,
      ).not.toMatch(/a limit|trim\//);
    }
  });

  it('are told by the slider as by the text', () => {
    const at = (heel: number): string => caseText(`${filmText()}\n\n  plan LF\n    heel down ${heel} mm`);
    const [sheet] = filmSheets(inspect(at(1)));
    const [cut] = sheet?.cuts ?? [];
    if (!sheet || !cut) throw new Error('no plan');
    for (const heel of [0, 1, 3, 5, 8, 14]) {
      const tried = triedCut(sheet, cut, { ...cut.size, heelDown: heel });
      const [written] = filmSheets(inspect(at(heel)));
      expect(tried.broken, `${heel} mm`).toEqual(written?.cuts[0]?.broken);
      const told = inspect(at(heel)).findings.some(({ code }) => cutLimits.some((limit) => limit.code === code));
      expect(tried.broken.length > 0, `${heel} mm`).toBe(told);
    }
    // The plain foot has 3 mm of heel beyond the live sole.
    expect(triedCut(sheet, cut, { ...cut.size, heelDown: 5 }).broken).toContain(
      '2.0 mm below the live sole plane at the heel',
    );
  });
});

describe('the pointer on a plan', () => {
  const says = (heel: number): string => {
    const text = caseText(`${filmText()}\n\n  plan LF\n    heel down ${heel} mm`);
    const document = TextDocument.create('file:///a.hoof', 'hoof', 1, text);
    const shown = hover(document, inspect(text), text.indexOf('plan') + 1, { docs: null, hoverFormat: 'plaintext' });
    return JSON.stringify(shown?.contents);
  };

  it('tells what it breaks, or how surely it breaks nothing', () => {
    expect(says(5)).toContain('Breaks a limit: 2.0 mm below the live sole plane at the heel');
    expect(says(0.5)).toMatch(/The bone comes to stand 0\.2° flatter\. Every limit is kept, in \d\d of 100 placings\./);
  });
});

describe('the chance that none of several numbers is below 0', () => {
  it('is that of the normal distribution for one', () => {
    // 90 % of a normal distribution lie below 1.281552 standard deviations (Abramowitz and Stegun 1964, table 26.5).
    expect(chanceOfNoneBelow({ means: [1.281552 * 0.7], covariance: [0.49] })).toBeCloseTo(0.9, 6);
    expect(chanceOfNoneBelow({ means: [-1, 3], covariance: [0, 0, 0, 1] })).toBe(0);
    expect(chanceOfNoneBelow({ means: [], covariance: [] })).toBe(1);
  });

  it('of two is a quarter and the share of their angle, where both means are 0', () => {
    // Sheppard 1899: 1/4 + asin(r) / 2π.
    for (const r of [-0.8, -0.3, 0, 0.5, 0.9, 1]) {
      const chance = chanceOfNoneBelow({ means: [0, 0], covariance: [1, r, r, 1] });
      // Three standard errors of 8192 draws are 0.014.
      expect(Math.abs(chance - 0.25 - Math.asin(r) / (2 * Math.PI)), `r = ${r}`).toBeLessThan(0.014);
    }
  });
});
