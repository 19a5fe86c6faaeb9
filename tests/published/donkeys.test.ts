import { describe, expect, it } from 'vitest';
import { bands } from '../../shared/reference/bands.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { boneAt, solarMarginAt, wallAt } from './feet-by-angle.ts';
import { levels, readFilm } from './readings.ts';

/**
 * Donkeys' fore feet (Collins and others, Equine Vet J 2011;43, doi 10.1111/j.2042-3306.2010.00312.x, 83 without and 74 with
 * laminitis), as quoted by others: without, wall 62, bone 64, solar margin 8 degrees; with it, solar margin about 11 and
 * rotation typically 12.5. Horses: 2 to 10 degrees (Equine Clinical Medicine, Surgery and Reproduction, 2nd ed., p. 88).
 */
const foot = (animal: string, { wall = 62, bone = 64, solar = 8 } = {}) =>
  readFilm(
    caseText(filmText({ ...wallAt(wall), ...boneAt(bone), ...solarMarginAt(solar) }), { animal: `animal ${animal}` }),
  );

describe('a donkey without laminitis', () => {
  const donkey = foot('donkey');

  it('has the angles of the paper', () => {
    expect(donkey.value('wall-angle')).toBeCloseTo(62, 9);
    expect(donkey.value('bone-angle')).toBeCloseTo(64, 9);
    expect(donkey.value('palmar-angle')).toBeCloseTo(8, 9);
    expect(donkey.value('capsular-rotation')).toBeCloseTo(64 - 62, 9);
  });

  it('is told neither of its palmar angle nor of rotation', () => {
    expect(donkey.ranges('palmar-angle')).toEqual([]);
    expect(donkey.ranges('capsular-rotation')).toEqual([]);
  });
});

describe('the palmar angle has one band for horses and another for donkeys', () => {
  it.each([
    [0.5, ['warning'], []],
    // Within the error of a placing it is told one level lower.
    [1.9, ['info'], []],
    [2.1, [], []],
    [9.9, [], []],
    [10.1, ['info'], ['hint']],
    [10.9, ['info'], ['hint']],
    [11.5, ['warning'], ['info']],
  ] as const)('%d degrees: a horse %j, a donkey %j', (solar, horse, donkey) => {
    expect(levels(foot('horse', { solar }), 'palmar-angle')).toEqual(horse);
    expect(levels(foot('donkey', { solar }), 'palmar-angle')).toEqual(donkey);
  });

  it('and the donkey is told that the ground for it is second hand', () => {
    expect(foot('donkey', { solar: 12 }).ranges('palmar-angle')[0]?.message).toContain('as quoted by others');
  });
});

// About half of the laminitic donkeys lie under a mean of 11 degrees, and half of the sound ones under 8: the line lies between.
it('the line for donkeys lies between the two means', () => {
  const [band] = bands.filter(({ measure, animals }) => measure === 'palmar-angle' && animals === 'donkeys');
  expect(band?.thresholds.map(({ at }) => at > 8 && at < 11)).toEqual([true]);
});

it('the rotation of a donkey with laminitis, 12.5 degrees, is a warning', () => {
  const donkey = foot('donkey', { bone: 62 + 12.5 });
  expect(donkey.value('capsular-rotation')).toBeCloseTo(12.5, 9);
  expect(levels(donkey, 'capsular-rotation')).toEqual(['warning']);
});
