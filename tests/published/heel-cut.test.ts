import type { MeasureName } from '../../shared/measures/names.ts';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';

/**
 * Heel height and palmar angle: with the toe as the hinge a height dh over a bearing length L turns the foot by
 * atan(dh / L). Plane trigonometry; the figures are the arithmetic's own, to three decimals, for four bearing lengths.
 */
const turns: readonly (readonly [length: number, dh: number, degrees: number])[] = [
  [60, 1, 0.955],
  [80, 1, 0.716],
  [100, 1, 0.573],
  [120, 1, 0.477],
  [60, 5, 4.764],
  [80, 5, 3.576],
  [100, 5, 2.862],
  [120, 5, 2.386],
  [60, 10, 9.462],
  [80, 10, 7.125],
  [100, 10, 5.711],
  [120, 10, 4.764],
];

function cutOf(text: string) {
  const [cut] = inspect(text).study.cuts;
  const taken = cut?.reading?.taking.values;
  const left = cut?.prediction?.values;
  if (!cut?.prediction || !taken || !left) throw new Error('the cut is not predicted');
  return {
    prediction: cut.prediction,
    before: (name: MeasureName) => taken.get(name)?.value ?? NaN,
    after: (name: MeasureName) => left.get(name)?.value ?? NaN,
  };
}

describe('a heel cut turns the foot by atan(dh / L)', () => {
  it.each(turns)('L %d mm, %d mm off the heel: %d degrees', (length, dh, degrees) => {
    const film = filmText({ 'heel.ground': [28 - length, 0], 'sole.heel': undefined });
    const { prediction, before, after } = cutOf(caseText(`${film}\n  trim LF\n    heel down ${dh} mm`));
    expect(prediction.delta).toBeCloseTo(degrees, 2);
    for (const angle of ['palmar-angle', 'wall-angle', 'bone-angle', 'heel-angle'] as const)
      expect(before(angle) - after(angle)).toBeCloseTo(prediction.delta, 9);
  });
});

describe('standing horses on wedges (Crevier-Denoix and others, Equine Vet J Suppl 2001;33:74-78, n = 5)', () => {
  // Over 30 degrees of wedge, 15 under the toe to 15 under the heel, the coffin joint moved 29.5 degrees: 0.98 of each degree.
  it('the coffin joint takes nearly the whole turn of the foot, as the model has it', () => {
    const { prediction, before, after } = cutOf(caseText(`${filmText()}\n  trim LF\n    heel down 3 mm`));
    const joint = before('phalangeal-rotation') - after('phalangeal-rotation');
    expect(after('middle-angle')).toBeCloseTo(before('middle-angle'), 9);
    expect(Math.abs(joint / prediction.delta - 29.5 / 30)).toBeLessThan(0.02);
  });

  // The pastern joint moved 7.3 and the fetlock joint 6.9 degrees over the same 30, of which the model has nothing: what it
  // predicts of the wall against the pastern may be off by as much.
  it('pastern and fetlock joint stand still in the model, which leaves out 0.24 and 0.23 of each degree', () => {
    const { before, after } = cutOf(caseText(`${filmText()}\n  trim LF\n    heel down 3 mm`));
    expect(after('axis-angle')).toBeCloseTo(before('axis-angle'), 9);
    expect(after('phalanx-ratio')).toBeCloseTo(before('phalanx-ratio'), 9);
  });
});

describe('trade facts (common practice, no source)', () => {
  it('heels lowered with the toe left alone leave capsular rotation and the wall at the toe as they were', () => {
    const { prediction, before, after } = cutOf(caseText(`${filmText()}\n  trim LF\n    heel down 3 mm`));
    expect(after('capsular-rotation')).toBeCloseTo(before('capsular-rotation'), 9);
    expect(prediction.wallLeft).toBeCloseTo(before('horn-lamellar.lower'), 9);
  });

  it('more off the heel never raises the palmar angle', () => {
    const angles = [0, 0.5, 1, 2, 3, 4, 6, 9].map((down) =>
      cutOf(caseText(`${filmText()}\n  trim LF\n    heel down ${down} mm`)).after('palmar-angle'),
    );
    for (let i = 1; i < angles.length; i++) expect(angles[i]).toBeLessThan(angles[i - 1] as number);
  });
});
