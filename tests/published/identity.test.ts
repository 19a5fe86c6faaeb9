import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';

const codesOf = (line: string): string[] => inspect(`hoof 1\ncase "X"\n  ${line}\n`).findings.map(({ code }) => code);

describe('microchip numbers (ISO 11784: a national number of 38 bits, highest 274877906943)', () => {
  it('up to the highest are read', () => {
    expect(codesOf('microchip 985274877906943')).toEqual([]);
  });

  it('38 bits are where it ends, whatever the country or maker before it', () => {
    const highest = 2 ** 38 - 1;
    for (const maker of ['250', '276', '826', '840', '900', '981', '998']) {
      expect(codesOf(`microchip ${maker}${highest}`)).toEqual([]);
      expect(codesOf(`microchip ${maker}${highest + 1}`)).toEqual(['record/microchip']);
      expect(codesOf(`microchip ${maker}${String(2 ** 37).padStart(12, '0')}`)).toEqual([]);
    }
  });

  it('fewer or more than 15 digits are no number', () => {
    for (const digits of ['98527487790694', '9852748779069430', '98527487790694A'])
      expect(codesOf(`microchip ${digits}`)).toHaveLength(1);
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

  it.each([
    ['250001', '00155928M', '25000100155928M'],
    ['372414', '1234567', '372414001234567'],
  ])('database %s and national number %s, filled up to 15, are %s', (database, national, number) => {
    const { study, findings } = inspect(`hoof 1\ncase "X"\n  ueln ${database}${national.padStart(9, '0')}\n`);
    expect(findings).toEqual([]);
    expect(study.record.animal?.is.ueln).toBe(number);
  });

  it('without the filling it is no number', () => {
    expect(codesOf('ueln 3724141234567')).toHaveLength(1);
  });
});
