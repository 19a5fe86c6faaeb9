import { MF } from 'mf-parser';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';

/** Moles to mass over the molar mass that mf-parser sums from the standard atomic weights. */
const molarMass = (formula: string): number => new MF(formula).getInfo().mass;

function base(word: 'glucose' | 'acth' | 'insulin', quantity: string): number {
  const { study, findings } = inspect(`hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  ${word} ${quantity}\n`);
  expect(findings.filter(({ code }) => code !== 'visit/insulin')).toEqual([]);
  return study.record.visits[0]?.is[word]?.base ?? NaN;
}

const off = (product: number, reference: number): number => Math.abs(product / reference - 1);

describe('laboratory units over molar masses', () => {
  it('glucose, C6H12O6: mg/dL to mmol/L', () => {
    const perMillimole = molarMass('C6H12O6') / 10;
    for (const amount of [40, 90, 126, 180, 400])
      expect(off(base('glucose', `${amount} mg/dL`), amount / perMillimole)).toBeLessThan(1e-4);
    expect(base('glucose', '5.2 mmol/L')).toBe(5.2);
  });

  it('ACTH of 39 residues, C207H308N56O58S (formula from memory): pmol/L to pg/mL', () => {
    const perPicomole = molarMass('C207H308N56O58S') / 1000;
    for (const amount of [2, 6.4, 20])
      expect(off(base('acth', `${amount} pmol/L`), amount * perPicomole)).toBeLessThan(1e-3);
  });

  it('insulin, C257H383N65O77S6 (formula from memory) at 0.0347 mg an international unit (as quoted by others): pmol/L to uIU/mL', () => {
    // Laboratories divide by 6 or by 6.945. Knopp and others (J Diabetes Sci Technol 2019;13:597-600): only one of the two in use
    // is right, and the other reports about 15 % too little. Mass over molar mass tells which.
    const picomolesPerMicroUnit = (0.0347 / molarMass('C257H383N65O77S6')) * 1e6;
    expect(off(base('insulin', '60 pmol/L'), 60 / picomolesPerMicroUnit)).toBeLessThan(0.01);
  });

  it('mIU/L, mU/L and uIU/mL are one: a thousand of each makes a unit, a thousand millilitres a litre', () => {
    expect(['mIU/L', 'mU/L', 'uIU/mL', 'µIU/mL'].map((word) => base('insulin', `38 ${word}`))).toEqual([
      38, 38, 38, 38,
    ]);
  });
});
