import { describe, expect, it } from 'vitest';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { readFilm } from './readings.ts';

/**
 * Intercept theorem, M = source to plate over source to object: with the tube 800 mm from the plate and the middle of the foot
 * 60 mm before it, 800 / 740 = 1.081, and 50 mm of foot throw a shadow of 54.05 mm.
 */
const M = 800 / 740;
const shadow = 50 * M;

/** The bone so long on the plate, and the film's lines of scale. */
const film = (onPlate: number, scale: string, more: string[] = [], magnified = 1) =>
  readFilm(
    caseText(
      filmText(
        { 'p3.navicular': [-onPlate * 0.8, 16 + onPlate * 0.6], 'sole.tip': [0, 16 - 10 * magnified] },
        { scale, more },
      ),
    ),
  );

describe('magnify', () => {
  it.each([
    ['a spacing at the plate', 'scale 0.1 mm/px'],
    ['a marker on the plate', 'scale 100 mm = 100, 100 .. 1100, 100'],
  ])('gives the 50 mm back, with %s', (_, scale) => {
    expect(film(shadow, scale).value('cortex-length')).toBeCloseTo(54.054, 3);
    expect(film(shadow, scale, [`magnify ${M}`]).value('cortex-length')).toBeCloseTo(50, 9);
    // By hand the factor is written with three decimals.
    expect(film(shadow, scale, ['magnify 1.081']).value('cortex-length')).toBeCloseTo(50, 1);
  });

  it('a marker that lies in the plane of the foot is magnified with it and needs no factor', () => {
    const length = 100 * M * 10;
    expect(film(shadow, `scale 100 mm = 100, 100 .. ${100 + length}, 100`).value('cortex-length')).toBeCloseTo(50, 9);
  });

  it('a sole that seems 7.5 mm is 6.9 mm: with the factor it is under the 7 mm of the finding', () => {
    const plain = film(shadow, 'scale 0.1 mm/px', [], 0.75);
    const divided = film(shadow, 'scale 0.1 mm/px', [`magnify ${M}`], 0.75);
    expect(plain.value('sole-depth.tip')).toBeCloseTo(7.5, 9);
    expect(divided.value('sole-depth.tip')).toBeCloseTo(7.5 / M, 9);
    expect([plain, divided].map((one) => one.ranges('sole-depth.tip')[0]?.severity)).toEqual(['info', 'warning']);
  });

  it('leaves angles alone', () => {
    const [plain, divided] = [film(shadow, 'scale 0.1 mm/px'), film(shadow, 'scale 0.1 mm/px', [`magnify ${M}`])];
    for (const angle of ['palmar-angle', 'wall-angle', 'capsular-rotation', 'coronet-angle'])
      expect(divided.value(angle)).toBeCloseTo(plain.value(angle), 9);
  });
});
