import { t } from '../language/words.ts';
import { fail, type Mismatch } from './mismatch.ts';
import type { Leaf } from './tree.ts';

/**
 * The longest way to write a number. Every double can be written with fewer signs in the sizes that occur, and with so
 * few none is beyond what a double holds.
 */
const longestNumber = 25;

export const isTooLong = ({ image }: Leaf): boolean => image.length > longestNumber;

export function tooLong(number: Leaf): Mismatch {
  return fail(
    'notation/number-range',
    number,
    t('A number has {0} digits at most; this one has {1}.', longestNumber, number.image.replace(/\D/g, '').length),
  );
}

export function checkLength(number: Leaf): void {
  if (isTooLong(number)) throw tooLong(number);
}
