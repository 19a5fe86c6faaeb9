import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { boneAt, leaning, middleAt, wallAt } from './feet-by-angle.ts';
import { readFilm } from './readings.ts';

/**
 * Means of ten fore feet before and after a trim (Dareh-Shori horses, Iranian Journal of Veterinary Surgery): S wall, T pedal
 * bone, U short pastern, degrees; lengths in cm. The paper defines H = T - S and R = T - U. Its printed means of H (-2.0, -1.65)
 * and R (3.30, 3.40) are not the differences of its printed means, so only S, T, U and their plain differences are used.
 */
const trims = [
  { when: 'before', s: 50.05, t: 48.65, u: 45.65, tMinusS: -1.4, tMinusU: 3.0, wall: 8.83, sole: 13.69, toe: 1.37 },
  { when: 'after', s: 51.4, t: 50.6, u: 47.9, tMinusS: -0.8, tMinusU: 2.7, wall: 8.53, sole: 13.01, toe: 1.17 },
] as const;

describe.each(trims)('ten fore feet, $when the trim', ({ s, t, u, tMinusS, tMinusU, wall, sole, toe }) => {
  const film = readFilm(caseText(filmText({ ...wallAt(s), ...boneAt(t), ...middleAt(u) })));

  it('the three angles come back', () => {
    expect(film.value('wall-angle')).toBeCloseTo(s, 9);
    expect(film.value('bone-angle')).toBeCloseTo(t, 9);
    expect(film.value('middle-angle')).toBeCloseTo(u, 9);
  });

  it('capsular rotation is T - S, phalangeal rotation T - U, with their signs', () => {
    expect(film.value('capsular-rotation')).toBeCloseTo(tMinusS, 9);
    expect(film.value('phalangeal-rotation')).toBeCloseTo(tMinusU, 9);
  });

  it('neither is told as a rotation', () => {
    expect(film.ranges('capsular-rotation')).toEqual([]);
  });

  it('the lengths come back, and `expect` takes them in cm as printed', () => {
    const toeGround = [toe * 10, 0] as const;
    const places = {
      'toe.ground': toeGround,
      breakover: toeGround,
      'heel.ground': [toeGround[0] - sole * 10, 0] as const,
      'coronet.dorsal': leaning(toeGround, s, wall * 10),
    };
    const more = [`expect toe-length ${wall} cm +- 0.001 cm`, `expect bearing-length ${sole} cm +- 0.001 cm`];
    const lengths = readFilm(caseText(filmText(places, { more })));
    expect(lengths.value('toe-length')).toBeCloseTo(unit(wall, 'cm').toNumber('mm'), 9);
    expect(lengths.value('bearing-length')).toBeCloseTo(unit(sole, 'cm').toNumber('mm'), 9);
    // The tip of the sound foot lies at X 0.
    expect(lengths.value('breakover-reach')).toBeCloseTo(toe * 10, 9);
    expect(lengths.findings.filter(({ code }) => code.startsWith('expect/'))).toEqual([]);
    const wrong = readFilm(caseText(filmText(places, { more: [`expect toe-length ${wall + 0.1} cm +- 0.001 cm`] })));
    expect(wrong.findings.filter(({ code }) => code.startsWith('expect/'))).toHaveLength(1);
  });
});
