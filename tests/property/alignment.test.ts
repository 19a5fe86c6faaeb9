import fc from 'fast-check';
import { add, complex, conj, multiply, type Complex } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { alignment, type DigitAxis } from '../../shared/geometry/alignment.ts';
import type { XY } from '../../shared/geometry/vector.ts';

const coordinate = fc.double({ min: -3000, max: 3000, noNaN: true });
const place = fc.record({ x: coordinate, y: coordinate });
const digit: fc.Arbitrary<DigitAxis> = fc
  .record({ coffin: place, pastern: place, dorsal: place, scale: fc.double({ min: 0.01, max: 2, noNaN: true }) })
  .filter(({ coffin, pastern, dorsal }) => {
    const up = { x: pastern.x - coffin.x, y: pastern.y - coffin.y };
    const out = { x: dorsal.x - coffin.x, y: dorsal.y - coffin.y };
    const length = Math.hypot(up.x, up.y);
    return length > 1 && Math.abs(up.x * out.y - up.y * out.x) > length;
  });

/** A similarity of the plane as a product and a sum of complex numbers, mirrored or not: the reference is mathjs. */
function similarity(by: Complex, to: Complex, mirrored: boolean): (p: XY) => XY {
  return ({ x, y }) => {
    const z = complex(x, y);
    const w = add(multiply(by, mirrored ? conj(z) : z), to) as Complex;
    return { x: w.re, y: w.im };
  };
}

describe('laying one foot over another', () => {
  it('finds any turn, shift, size and mirror image that made the other picture', () => {
    const turn = fc.record({
      re: fc.double({ min: -3, max: 3, noNaN: true }),
      im: fc.double({ min: 0.1, max: 3, noNaN: true }),
    });
    fc.assert(
      fc.property(digit, turn, place, fc.boolean(), place, (own, { re, im }, to, mirrored, other) => {
        const carry = similarity(complex(re, im), complex(to.x, to.y), mirrored);
        const size = Math.hypot(re, im);
        const picture: DigitAxis = {
          coffin: carry(own.coffin),
          pastern: carry(own.pastern),
          dorsal: carry(own.dorsal),
          // So many times larger on the picture, so many times fewer millimetres to a pixel.
          scale: own.scale / size,
        };
        const found = alignment(own, picture)?.(other);
        const wanted = carry(other);
        expect(found?.x).toBeCloseTo(wanted.x, 5);
        expect(found?.y).toBeCloseTo(wanted.y, 5);
      }),
    );
  });

  it('keeps millimetres, whatever the two scales', () => {
    fc.assert(
      fc.property(digit, digit, place, place, (from, onto, a, b) => {
        const carry = alignment(from, onto);
        if (!carry) throw new Error('no alignment');
        const [p, q] = [carry(a), carry(b)];
        const before = Math.hypot(a.x - b.x, a.y - b.y) * from.scale;
        expect(Math.hypot(p.x - q.x, p.y - q.y) * onto.scale).toBeCloseTo(before, 5);
      }),
    );
  });

  it('is nothing where an axis has no length', () => {
    const at = { x: 1, y: 1 };
    const good: DigitAxis = { coffin: at, pastern: { x: 1, y: 50 }, dorsal: { x: 30, y: 0 }, scale: 1 };
    expect(alignment({ ...good, pastern: at }, good)).toBeNull();
    expect(alignment(good, { ...good, dorsal: { x: 1, y: 80 } })).toBeNull();
    expect(alignment(good, { ...good, scale: 0 })).toBeNull();
  });
});
