import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal } from '../../shared/notation/decimal.ts';

/** Against `Number`, which reads decimal literals as ECMAScript defines it: the nearest double, ties to even. A 0 has no sign here. */
const reference = (image: string): number => Number(image) + 0;

const written = fc
  .tuple(fc.constantFrom('', '-'), fc.stringMatching(/^\d{1,12}$/), fc.stringMatching(/^\d{0,12}$/))
  .map(([sign, whole, fraction]) => `${sign}${whole}${fraction === '' ? '' : `.${fraction}`}`);

describe('the value of a written number', () => {
  it('is the nearest double, to the last bit, and 0 has no sign', () => {
    fc.assert(
      fc.property(written, (image) => {
        expect(decimal(image)).toBe(reference(image));
      }),
      { numRuns: 20_000 },
    );
    for (const image of [
      '0',
      '-0',
      '-0.0',
      '-0.00000000000000000',
      '007.50',
      '999999999999999',
      '9007199254740993',
      '0.1',
    ])
      expect(decimal(image), image).toBe(reference(image));
    expect(Object.is(decimal('-0'), 0)).toBe(true);
  });
});
