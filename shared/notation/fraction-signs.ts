import { t } from '../language/words.ts';
import { fail, replace } from './mismatch.ts';
import type { Item, ItemOf } from './tree.ts';

const fractions: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** `3¼`, which is not read: throws a Mismatch that says how it is written. */
export function checkSignOfFraction({ number, unit, start, end }: ItemOf<'number'>, next: Item | undefined): void {
  const fraction = next?.kind === 'broken' && next.start === end && !unit ? fractions[next.image] : undefined;
  if (fraction === undefined || !next) return;
  const written = `${number.image} ${fraction}`;
  throw fail('notation/unexpected', { start, end: next.end }, t('A fraction is written with a stroke: {0}.', written), [
    replace(t('Write {0}', written), { start, end: next.end }, written),
  ]);
}
