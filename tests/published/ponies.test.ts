import { describe, expect, it } from 'vitest';
import { caseText, filmText, soundFoot, type Places } from '../unit/plain-foot.ts';
import { readFilm } from './readings.ts';

/**
 * 81 ponies of 81.5 to 148 cm (Thieme, Ehrle and Lischer, Vet J 2015;206:332-337, doi 10.1016/j.tvjl.2015.10.005): lengths of the
 * feet go with the height at the withers, angles hardly do, and pony feet are relatively larger than those of Warmbloods. That a
 * high limit of a length shrinks in proportion, and from 148 cm, is the product's own reading of it: here is tested that it does so
 * and says that it is probably too strict, not that ponies do. Low limits of the sole shrink with nothing.
 */
const shrink = 111 / 148;
const thinSoled: Places = {
  'sole.tip': [0, 5.6],
  'p3.dorsal.upper': [-22, 56],
  'coronet.dorsal': [-25, 76],
  'wall.top': [-18, 72],
};
const big: Places = { ...soundFoot, ...thinSoled };
const small: Places = Object.fromEntries(
  Object.entries(big).map(([name, place]) => [name, place && [place[0] * shrink, place[1] * shrink]]),
);
const foot = (places: Places, height: string, kind: string) =>
  readFilm(caseText(filmText(places), { animal: `animal ${kind}\n  height ${height}` }));

const horse = foot(big, '148 cm', 'horse');
const pony = foot(small, '111 cm', 'pony');
const rangesOf = ({ findings }: typeof pony) => findings.filter(({ code }) => code.startsWith('range/'));
const isLength = (measure: string): boolean =>
  /^(sole-depth|cup|horn-lamellar\.|lamellar-zone|founder|coronet-(extensor|navicular)|heel-(height|surplus)|cortex|toe-length|bearing|breakover|p[23]-(length|back))/.test(
    measure,
  );

describe('a pony of 111 cm whose foot is that of a horse of 148 cm on a smaller scale', () => {
  it('keeps every angle and share, and has every length by three quarters', () => {
    expect(pony.names).toEqual(horse.names);
    for (const measure of pony.names)
      expect(pony.value(measure), measure).toBeCloseTo(horse.value(measure) * (isLength(measure) ? 0.75 : 1), 9);
    expect(pony.names.filter(isLength)).toHaveLength(23);
  });

  it('is told of the same measures at the same levels', () => {
    const told = (film: typeof pony) => rangesOf(film).map(({ code, severity }) => `${severity} ${code}`);
    expect(told(pony)).toEqual(told(horse));
    expect(told(pony)).toContain('info range/sole-depth.tip');
    expect(told(pony)).toContain('warning range/low-in-capsule');
  });

  it('against length limits of three quarters, the height told, and angle limits as they stand', () => {
    let lengths = 0;
    for (const [index, { measure = '', limit = NaN, message }] of rangesOf(pony).entries()) {
      const theirs = rangesOf(horse)[index];
      const isScaled = isLength(measure) && !measure.startsWith('sole-depth');
      expect(limit, measure).toBeCloseTo((theirs?.limit ?? NaN) * (isScaled ? 0.75 : 1), 9);
      if (isScaled) expect(message).toContain('111 cm at the withers, and probably too strict');
      else expect(message).not.toContain('at the withers');
      if (isScaled) lengths += 1;
      expect(theirs?.message).not.toContain('at the withers');
    }
    expect(lengths).toBeGreaterThanOrEqual(1);
    expect(rangesOf(pony).length).toBeGreaterThan(lengths);
  });

  it('on a horse of full height the small foot would be told of the same sole: its limits are the same', () => {
    const sole = (film: typeof pony) => film.ranges('sole-depth.tip').map(({ severity, limit }) => [severity, limit]);
    expect(sole(foot(small, '148 cm', 'horse'))).toEqual(sole(pony));
    expect(sole(pony)).toHaveLength(1);
  });
});
