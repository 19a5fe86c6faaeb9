import { describe, expect, it } from 'vitest';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { solarMarginAt } from './feet-by-angle.ts';
import { levels, readFilm } from './readings.ts';

/**
 * Plantar angle, means (Clements and others, Equine Vet Educ 2019, doi 10.1111/eve.13186): 132 hind-lame horses left -1.0, right
 * -1.1 degrees; 50 controls left +1.8, right +1.4. Median of 80 sound ones +0.9 (Pezzanite and others 2019, as quoted by others).
 * Of 225 unselected horses the median was 0.6, the middle half -1.4 to 2.3 (Shape of the lateral aspect of the hoof capsule in
 * hindlimbs, abstract): below 0 is no more than information.
 */
const foot = (name: string, degrees: number) =>
  readFilm(caseText(filmText(solarMarginAt(degrees), { header: `film ${name} lateral "x.png"` })));

describe('plantar angle of hind feet', () => {
  it.each([
    ['LH', -1.0],
    ['RH', -1.1],
  ])(
    '%s of hind-lame horses, %d degrees: no more than information, that speaks of the plantar angle',
    (name, degrees) => {
      const film = foot(name, degrees);
      expect(film.value('palmar-angle')).toBeCloseTo(degrees, 9);
      // A degree below 0 is about twice the standard deviation of the placings.
      expect(['info', 'hint']).toContain(levels(film, 'palmar-angle').join());
      expect(film.ranges('palmar-angle')[0]?.message).toMatch(/^Plantar angle/);
    },
  );

  it.each([
    ['LH', 1.8],
    ['RH', 1.4],
    ['LH', 0.9],
  ])('%s of sound horses, %d degrees: nothing', (name, degrees) => {
    const film = foot(name, degrees);
    expect(film.value('palmar-angle')).toBeCloseTo(degrees, 9);
    expect(film.ranges('palmar-angle')).toEqual([]);
  });

  it('a foundered hind foot at 13 degrees is told', () => {
    expect(levels(foot('LH', 13), 'palmar-angle')).toEqual(['info']);
  });

  it('what is sound behind is under the range in front (2 to 10 degrees, the textbook)', () => {
    expect(levels(foot('LF', 0.6), 'palmar-angle')).toEqual(['warning']);
    expect(levels(foot('LH', 0.6), 'palmar-angle')).toEqual([]);
  });
});
