import { expect, test } from 'vitest';
import { keptWhile } from '../../shared/notation/kept-while.ts';

test('is made anew when one thing that it rests on is another', () => {
  const keep = keptWhile<object, number>();
  const [one, other] = [{}, {}];
  let made = 0;
  const asked = (of: object, ...restsOn: readonly unknown[]): number => keep(of, restsOn, () => ++made);

  expect(asked(one, 'a', null)).toBe(1);
  expect(asked(one, 'a', null)).toBe(1);
  expect(asked(other, 'a', null)).toBe(2);
  expect(asked(one, 'a', null, 0)).toBe(3);
  expect(asked(one, 'a', undefined, 0)).toBe(4);
  expect(asked(one, Number.NaN)).toBe(5);
  expect(asked(one, Number.NaN)).toBe(5);
});
