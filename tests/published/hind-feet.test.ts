import { describe, expect, it } from 'vitest';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { solarMarginAt } from './feet-by-angle.ts';
import { levels, readFilm } from './readings.ts';

/**
 * Plantar angle, means (Clements and others, Equine Vet Educ 2019, doi 10.1111/eve.13186): 132 hind-lame horses left -1.0, right
 * -1.1 degrees; 50 controls left +1.8, right +1.4. Median of 80 sound ones +0.9 (Pezzanite and others 2019, as quoted by others).
 */
const foot = (name: string, degrees: number) =>
  readFilm(caseText(filmText(solarMarginAt(degrees), { header: `film ${name} lateral "x.png"` })));

describe('plantar angle of hind feet', () => {
  it.each([
    ['LH', -1.0],
    ['RH', -1.1],
  ])('%s of hind-lame horses, %d degrees: a warning that speaks of the plantar angle', (name, degrees) => {
    const film = foot(name, degrees);
    expect(film.value('palmar-angle')).toBeCloseTo(degrees, 9);
    expect(levels(film, 'palmar-angle')).toEqual(['warning']);
    expect(film.ranges('palmar-angle')[0]?.message).toMatch(/^Plantar angle/);
  });

  it.each([
    ['LH', 1.8],
    ['RH', 1.4],
    ['LH', 0.9],
  ])('%s of sound horses, %d degrees: nothing', (name, degrees) => {
    const film = foot(name, degrees);
    expect(film.value('palmar-angle')).toBeCloseTo(degrees, 9);
    expect(film.ranges('palmar-angle')).toEqual([]);
  });

  it('what is sound behind is under the range in front (2 to 10 degrees, the textbook)', () => {
    expect(levels(foot('LF', 1.4), 'palmar-angle')).toEqual(['warning']);
  });
});
