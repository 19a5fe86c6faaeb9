import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';

const codesOf = (line: string): string[] => inspect(`hoof 1\ncase "X"\n  ${line}\n`).findings.map(({ code }) => code);

describe('microchip numbers (ISO 11784: a national number of 38 bits, highest 274877906943)', () => {
  it('up to the highest are read', () => {
    expect(codesOf('microchip 985274877906943')).toEqual([]);
  });

  it('above it are told to be impossible', () => {
    expect(codesOf('microchip 985274877906944')).toEqual(['record/microchip']);
  });
});

describe('Universal Equine Life Numbers (worked examples of ueln.net)', () => {
  it.each(['25000100155928M', '372414001234567', '1212120078M0234'])('%s is read in one piece', (number) => {
    expect(codesOf(`ueln ${number}`)).toEqual([]);
    expect(inspect(`hoof 1\ncase "X"\n  ueln ${number}\n`).study.record.animal?.is.ueln).toBe(number);
  });
});
