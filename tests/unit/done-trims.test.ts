import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmText, type Places } from './plain-foot.ts';

/** One film, and a plan or a trim so many days later. */
function cutLater(kind: 'plan' | 'trim', cut: string, days: number, places: Places = {}) {
  const day = new Date(Date.UTC(2026, 2, 4 + days)).toISOString().slice(0, 10);
  const later = days === 0 ? '' : `\nvisit ${day}\n`;
  return inspect(`hoof 1\n\nvisit 2026-03-04\n${filmText(places)}\n${later}  ${kind} LF\n    ${cut}\n`).findings.filter(
    ({ code }) => code.startsWith('trim/'),
  );
}

describe('a trim that is done', () => {
  it('is told what it left, not what to do instead, and no way out is offered', () => {
    const [told] = cutLater('trim', 'toe back 8 mm', 0);
    expect(told?.message).toMatch(
      /^8\.0 mm were taken; .* of horn are left outside the lamellae .* Protect the toe\.$/,
    );
    const cuts = ['toe back 8 mm', 'heel down 6 mm', 'toe down 6 mm', 'heel down 13 mm', 'toe back 30 mm'];
    let findings = 0;
    for (const cut of cuts)
      for (const { message, fixes, code } of cutLater('trim', cut, 0)) {
        findings += 1;
        expect(message, code).not.toMatch(/Take less|Take it in steps|Bring it back less|Lower the heel less|would be/);
        expect(fixes, code).toEqual([]);
      }
    expect(findings).toBeGreaterThan(8);
  });

  it('keeps the words of a plan for a plan', () => {
    expect(cutLater('plan', 'toe back 8 mm', 0)[0]?.message).toContain('Bring it back less.');
    expect(cutLater('plan', 'heel down 6 mm', 0).some(({ fixes }) => fixes.length > 0)).toBe(true);
  });

  it('is an error only where it is wrong even with 0.33 mm of wall grown a day since the film', () => {
    const plane = (kind: 'plan' | 'trim', heel: number, days: number) =>
      cutLater(kind, `heel down ${heel} mm`, days)
        .filter(({ code }) => code === 'trim/below-sole-plane')
        .map(({ severity }) => severity);
    // 3 mm of heel stand beyond the sole on the film; 28 days let 9.2 mm grow.
    expect(plane('trim', 6, 0)).toEqual(['error']);
    expect(plane('trim', 6, 28)).toEqual(['warning']);
    expect(plane('trim', 14, 28)).toEqual(['error']);
    // What is only planned is planned on the film, and takes no regrowth as horn.
    expect(plane('plan', 6, 28)).toEqual(['error']);
    const [told] = cutLater('trim', 'heel down 6 mm', 28).filter(({ code }) => code === 'trim/below-sole-plane');
    expect(told?.message).toContain('With the 9.2 mm of wall that may have grown since the film it need not be so.');
  });
});

describe('heel in one visit', () => {
  it('is judged by degrees; more than 10 mm only informs', () => {
    const told = (cut: string) =>
      cutLater('plan', cut, 0, { 'sole.heel': [-104, 22], 'sole.wing': [-80, 20] }).map(
        ({ code, severity }) => `${severity} ${code}`,
      );
    expect(told('heel down 10.5 mm')).toContain('info trim/heel-per-visit');
    expect(told('heel down 10.5 mm')).not.toContain('warning trim/turn-per-visit');
    expect(told('heel down 13 mm')).toContain('warning trim/turn-per-visit');
  });
});
