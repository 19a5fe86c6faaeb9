import { describe, expect, it } from 'vitest';
import { readLevels } from '../../shared/findings/engine/severity-levels.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { openAlarms } from '../../shared/findings/open-alarms.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { caseText, filmText } from './plain-foot.ts';

/** A founder distance of so many mm: the top of the firm wall above the extensor process. */
const film = (mm: number, header = 'film LF lateral "x.png"') =>
  filmText({ 'wall.top': [-18, 56 + mm], 'coronet.dorsal': undefined, 'coronet.heel': undefined }, { header });
const low = (text: string) => inspect(text).findings.filter(({ code }) => code.includes('low-in-capsule'));
const alarms = (text: string) => openAlarms(inspect(text).study).map(({ code, severity }) => `${severity} ${code}`);

describe('a bone that lies very low on one film', () => {
  const text = caseText(film(18));

  it('is an open alarm that does not cry sinking', () => {
    const [found, ...more] = low(text);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ code: 'range/very-low-in-capsule', severity: 'error', limit: 15 });
    expect(found?.message).toContain(
      'The bone lies very low in the capsule. One film cannot tell whether it sinks: ask the vet today.',
    );
    expect(alarms(text)).toEqual(['error range/very-low-in-capsule']);
  });

  it('can neither be accepted nor switched off', () => {
    const accepted = caseText(`  accept range/very-low-in-capsule because "always"\n${film(18)}`);
    expect(low(accepted)[0]).toMatchObject({ severity: 'error' });
    expect(inspect(accepted).findings.map(({ code }) => code)).toContain('accept/never');
    const other = caseText(`  accept range/low-in-capsule because "always"\n${film(18)}`);
    expect(alarms(other)).toEqual(['error range/very-low-in-capsule']);
    const { levels } = readLevels([['range/*', 'off']]);
    const { findings, study } = inspect(text, { ...usualStudy, levels });
    expect(findings.map(({ code, severity }) => `${severity} ${code}`)).toContain('info range/very-low-in-capsule');
    expect(openAlarms(study)).toHaveLength(1);
  });

  it('is closed by the vet on the day of the film or later, and opens anew with a new film', () => {
    const seen = (day: string) => `${text}\nvisit ${day}\n  vet seen ${day} "sedated, shod"\n`;
    expect(alarms(seen('2026-03-04').replace('\nvisit 2026-03-04\n  vet', '\n  vet'))).toEqual([]);
    expect(alarms(seen('2026-04-01'))).toEqual([]);
    expect(low(seen('2026-04-01'))[0]).toMatchObject({ severity: 'hint' });
    expect(low(seen('2026-04-01'))[0]?.message).toContain('Seen by the vet on 1 April 2026.');
    expect(alarms(seen('2026-04-01').replace('seen 2026-04-01', 'seen 2026-03-03'))).toHaveLength(1);
    expect(alarms(`${seen('2026-04-01')}\nvisit 2026-05-01\n${film(18)}\n`)).toHaveLength(1);
  });
});

describe('a limit that is scaled by height', () => {
  const pony = (mm: number) => caseText(film(mm), { animal: 'animal pony mare\n  height 90 cm' });

  it('is never an error, nor an alarm', () => {
    const [found, ...more] = low(pony(11.7));
    expect(more).toEqual([]);
    expect(found).toMatchObject({ code: 'range/low-in-capsule', severity: 'warning' });
    expect(found?.limit).toBeCloseTo((15 * 900) / 1480, 6);
    expect(found?.message).toContain('probably too strict');
    expect(found?.message).not.toMatch(/vet/);
    expect(alarms(pony(11.7))).toEqual([]);
  });

  it('takes none of the error that is drawn for full height', () => {
    const [found] = low(pony(18));
    expect(found).toMatchObject({ severity: 'error', limit: 15 });
    expect(found?.message).not.toContain('probably too strict');
    expect(alarms(pony(18))).toHaveLength(1);
  });
});

describe('what to compare with', () => {
  it('is named only where there is a film of it', () => {
    const said = (text: string) => low(text).find(({ past }) => !past)?.message ?? '';
    expect(said(caseText(film(12)))).not.toContain('Compare');
    expect(said(caseText(`${film(12)}\n\n${film(5, 'film RF lateral "r.png"')}`))).toMatch(
      /Compare with the other feet\.$/,
    );
    expect(said(`${caseText(film(11))}\nvisit 2026-04-01\n${film(12, 'film LF lateral "y.png"')}\n`)).toMatch(
      /Compare with earlier films of this one\.$/,
    );
  });
});
