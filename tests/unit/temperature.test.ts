import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';

const sheet = (animal: string, lines: string): string =>
  `hoof 1\n\ncase "X"\n  animal    ${animal}\n\nvisit 2026-03-04\n  ${lines}\n`;
const told = (lines: string, animal = 'horse mare') =>
  inspect(sheet(animal, lines)).findings.filter(({ code }) => code === 'visit/temperature');

/** 38.5 °C is the usual upper end of normal in grown horses: common practice, no source. 101.3 °F are (101.3 - 32) × 5 / 9 of it. */
describe('a high temperature', () => {
  it('of a grown horse or pony is asked about, from 38.5 °C on', () => {
    expect(told('temperature 38.4 C')).toEqual([]);
    expect(told('temperature 101.2 F')).toEqual([]);
    expect(told('temperature 101.3 F')).toHaveLength(1);
    expect(told('temperature 38.5 C', 'pony gelding')).toHaveLength(1);
    const [found] = told('temperature 41 C');
    expect(found).toMatchObject({ severity: 'warning', value: 41, limit: 38.5 });
    // From where on it is a warning is a judgement of ours.
    expect(told('temperature 39.4 C')).toMatchObject([{ severity: 'info' }]);
    expect(found?.message).toMatch(/^Is this fever\? .* write sign fever, or tell the vet\./);
  });

  it('is not asked about where fever is written, the vet saw the animal, or it is young or no horse', () => {
    expect(told('temperature 41 C\n  sign fever')).toEqual([]);
    expect(told('temperature 41 C\n  vet seen 2026-03-04')).toEqual([]);
    expect(told('temperature 41 C\n  sign swelling')).toHaveLength(1);
    expect(told('temperature 39 C', 'horse filly\n  foaled    2025-04')).toEqual([]);
    expect(told('temperature 39 C', 'horse mare\n  foaled    2020-04')).toHaveLength(1);
    for (const animal of ['donkey jenny', 'mule mare']) expect(told('temperature 39 C', animal)).toEqual([]);
  });

  it('has a fix that writes the sign, which then calls the vet', () => {
    const text = sheet('horse mare', 'temperature 41 C');
    const [edit] = told('temperature 41 C')[0]?.fixes[0]?.edits ?? [];
    if (!edit) throw new Error('no fix');
    const mended = text.slice(0, edit.start) + edit.text + text.slice(edit.end);
    expect(mended).toContain('  temperature 41 C\n  sign       fever\n');
    expect(inspect(mended).findings.map(({ code }) => code)).toEqual(['visit/call-the-vet']);
  });
});
