import { describe, expect, it } from 'vitest';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { boneAt, wallAt } from './feet-by-angle.ts';
import { readFilm } from './readings.ts';

/**
 * Rotation by outcome in horses with laminitis, means (Hunt, Equine Vet J 1993;25:61-64,
 * doi 10.1111/j.2042-3306.1993.tb02903.x, n = 202): sound again 5.89 (SD 6.48), lame at times 11.10 (8.19), always lame 14.50
 * (10.80), dead 7.49 (6.57). The dead had rotated less than the lame: rotation explained 0.004 of the outcome, the grade of
 * lameness 0.504: no rotation is an error, and one within the error of the placings is information. The levels are the product's, from cut-offs that it marks as from memory.
 */
const at = (degrees: number) => readFilm(caseText(filmText({ ...wallAt(48), ...boneAt(48 + degrees) })));

describe('outcome groups by rotation', () => {
  it.each([
    ['sound again', 5.89, 'info'],
    ['dead', 7.49, 'info'],
    ['lame at times', 11.1, 'warning'],
    ['always lame', 14.5, 'warning'],
  ])('%s, %d degrees: %s', (_, degrees, severity) => {
    const film = at(degrees);
    expect(film.value('capsular-rotation')).toBeCloseTo(degrees, 9);
    const [finding, ...others] = film.ranges('capsular-rotation');
    expect(others).toEqual([]);
    expect(finding?.severity).toBe(severity);
    // With an R2 of 0.004 no level may stand without this.
    expect(finding?.message).toContain('Rotation alone says little about the outcome');
    expect(finding?.message).toContain('grade of lameness');
    expect(finding?.message).toContain('Hunt 1993');
    expect(finding?.message).toContain('from memory');
  });

  it('readers repeat rotation badly (Thieme, doctoral thesis, Freie Universität Berlin), which is said too', () => {
    expect(at(5.89).ranges('capsular-rotation')[0]?.message).toContain('do not go by this alone');
  });
});
