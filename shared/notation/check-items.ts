import { t } from '../language/words.ts';
import { dateExists, firstYear, lastYear, readDate, type DateParts } from './dates.ts';
import { fail, list, Mismatch, replace, type ExpectedForm } from './mismatch.ts';
import { isTooLong, tooLong } from './number-length.ts';
import type { Argument } from './signature.ts';
import type { Item, ItemOf } from './tree.ts';

/** Items of the right kind looked at closely: throws a Mismatch where something is wrong about one. */

export function checkDate(item: ItemOf<'date'>, partial: boolean): void {
  const parts = readDate(item.image);
  if (!parts || !dateExists(parts)) throw wrongDate(item);
  if (parts.day === null && !partial)
    throw fail('notation/date-form', item, t('The day is needed here too, as in {0}-01.', item.image));
  if (parts.year < firstYear || parts.year > lastYear)
    throw fail(
      'notation/number-range',
      item,
      t('A year here goes from {0} to {1}; check the date.', firstYear, lastYear),
    );
}

/** A year alone: four digits and nothing behind them. */
export function isYear({ number, unit }: ItemOf<'number'>): boolean {
  return unit === null && /^\d{4}$/.test(number.image);
}

/** Takes the year where it may be one. */
export function takeYear({ number }: ItemOf<'number'>): number {
  const year = Number(number.image);
  if (year < firstYear || year > lastYear)
    throw fail(
      'notation/number-range',
      number,
      t('A year here goes from {0} to {1}; check the date.', firstYear, lastYear),
    );
  return 1;
}

function wrongDate(item: ItemOf<'date'>): Mismatch {
  if (/[./]/.test(item.image)) return writtenDate(item);
  const padded = item.image
    .split('-')
    .map((part) => part.padStart(2, '0'))
    .join('-');
  if (padded !== item.image)
    return fail('notation/date-form', item, t('Write the date with two digits for month and day: {0}.', padded), [
      replace(t('Write {0}', padded), item, padded),
    ]);
  return fail('notation/no-such-date', item, t('There is no {0} in the calendar.', item.image));
}

/** 4.3.2026 can only be meant one way where the trade writes day.month; 3/4/2026 can be meant two ways, and both are offered. */
export function writtenDate(item: ItemOf<'date'>): Mismatch {
  const dates = [...new Set(orders(item.image).map((parts) => parts.map((part) => part.padStart(2, '0')).join('-')))];
  const real = dates.filter((date) => dateExists(readDate(date) as DateParts));
  const [only] = real;
  const hint = real.length === 1 ? `: ${only}` : real.length > 1 ? `: ${list(real)}` : t(', for example 2026-03-04');
  return fail(
    'notation/date-form',
    item,
    t('Write the date as year-month-day{0}.', hint),
    real.map((date) => replace(t('Write {0}', date), item, date)),
  );
}

/** Year, month and day as the digits may be read. */
function orders(image: string): string[][] {
  const yearFirst = /^(\d{4})[./](\d{1,2})[./](\d{1,2})$/.exec(image);
  if (yearFirst) return [yearFirst.slice(1)];
  const [, one = '', two = '', year = ''] = /^(\d{1,2})[./](\d{1,2})[./](\d{4})$/.exec(image) ?? [];
  if (year === '') return [];
  return image.includes('.')
    ? [[year, two, one]]
    : [
        [year, two, one],
        [year, one, two],
      ];
}

export function checkEscapes(item: ItemOf<'text'>, isPath: boolean): void {
  if (!item.image.includes('\\')) return;
  const inside = item.image.slice(1, -1);
  if (isPath) {
    if (!item.value.includes('\\')) return;
    const slashed = item.value.replace(/\\/g, '/').replace(/"/g, '\\"');
    throw fail('notation/text-escape', item, t('Write / between folders in a path, on every system.'), [
      replace(t('Write / instead'), item, `"${slashed}"`),
    ]);
  }
  const doubled = inside.replace(/\\(["\\])|\\/g, (pair, escaped?: string) => (escaped === undefined ? '\\\\' : pair));
  if (doubled === inside) return;
  throw fail(
    'notation/text-escape',
    item,
    t('In a text a backslash stands only before " or another backslash. Write \\\\ for a backslash.'),
    [replace(t('Double the backslash'), item, `"${doubled}"`)],
  );
}

export function takeCode(
  argument: Extract<Argument, { take: 'code' }>,
  items: readonly Item[],
  index: number,
  asked: ExpectedForm,
): number {
  const first = items[index];
  if (!first) return 0;
  if (first.kind !== 'text' && first.kind !== 'word' && first.kind !== 'number') return 0;
  let end = index + 1;
  while (
    end < items.length &&
    items[end]?.start === items[end - 1]?.end &&
    ['word', 'number', 'date'].includes(items[end]?.kind ?? '')
  )
    end += 1;
  const image = codeImage(items.slice(index, end));
  // A fraction of an inch is no code, though its digits might be.
  const isBroken = items.slice(index, end).some((item) => item.kind === 'number' && item.number.fraction !== undefined);
  const at = { start: first.start, end: items[end - 1]?.end ?? first.end };
  const { characters, digits } = argument;
  const wellFormed =
    !isBroken &&
    (digits ? /^\d+$/ : /^[A-Za-z0-9][A-Za-z0-9._-]*$/).test(image) &&
    (!characters || image.length === characters);
  if (wellFormed) return end - index;
  const what = digits ? t('digits') : t('letters and digits');
  const joined = codeImage(items.slice(index)).replace(/[\s.-]/g, '');
  const whole = { start: first.start, end: items.at(-1)?.end ?? first.end };
  const meant = (digits ? /^\d+$/ : /^[A-Za-z0-9]+$/).test(joined) && joined.length === characters ? joined : null;
  throw fail(
    'notation/code-form',
    at,
    characters
      ? t(
          '«{0}» has {1} {2} in one piece; here are {3}.',
          asked.head.image,
          characters,
          what,
          image.replace(/\s/g, '').length,
        )
      : t('«{0}» is {1} in one piece, for example: {2}', asked.head.image, what, asked.example),
    meant === null ? [] : [replace(t('Write {0}', meant), whole, meant)],
  );
}

/** The code that a run of adjoining items spells. */
export function codeImage(items: readonly Item[]): string {
  return items
    .map((item) => {
      switch (item.kind) {
        case 'text':
          return item.value;
        case 'number':
          return item.unit && item.unit.start > item.number.end
            ? `${item.number.image} ${item.unit.image}`
            : `${item.number.image}${item.unit?.image ?? ''}`;
        case 'word':
        case 'date':
        case 'sign':
        case 'broken':
          return item.image;
        default:
          return '';
      }
    })
    .join('');
}

export function decimalComma(item: ItemOf<'point'>): Mismatch {
  const long = [item.x, item.y].find(isTooLong);
  if (long) return tooLong(long);
  const number = `${item.x.image}.${item.y.image}`;
  return fail(
    'notation/decimal-comma',
    item,
    t('Write the number with a decimal point: {0}. The comma parts x from y.', number),
    [replace(t('Write {0}', number), item, number)],
  );
}
