import { dateExists, firstYear, lastYear, readDate } from './dates.ts';

/** Days as people write them, in a piece of text: `2026-4-4`, `20260404`, `4.4.2026`, `4 April 2026`, `April 4th, 2026`. */

const month = '(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\\p{L}{0,6}\\.?';
const day = '\\d{1,2}(?:st|nd|rd|th)?\\.?';
const gap = '[^\\S\\r\\n]';

/** As a piece of an expression with the flags `iu`. */
export const datePattern = [
  '\\d{4}[-./–]\\d{1,2}[-./–]\\d{1,2}(?![\\p{L}\\d-])',
  `\\d{1,2}[-./–]\\d{1,2}[-./–](?:\\d{4}|\\d{2})(?![\\p{L}\\d./-])`,
  '(?:19|20|21)\\d{6}(?![\\p{L}\\d.,])',
  `${day}${gap}*(?:of${gap}+)?${month}${gap}*,?${gap}*\\d{4}(?!\\d)`,
  `${month}${gap}*${day},?${gap}*\\d{4}(?!\\d)`,
  `\\d{4}${gap}+\\d{1,2}${gap}+\\d{1,2}(?![\\p{L}\\d.,])`,
].join('|');

const anywhere = new RegExp(`(?<![\\p{L}\\d])(?:${datePattern})|(?<=\\p{L})(?:\\d{4}-\\d{2}-\\d{2}(?!\\d))`, 'iu');

/** The day that a text means, as YYYY-MM-DD; null where it is none, or could be two. */
export function writtenDay(image: string): string | null {
  const parts = partsOf(image.toLowerCase());
  if (!parts) return null;
  const date = parts.map((part, index) => part.padStart(index === 0 ? 4 : 2, '0')).join('-');
  const read = readDate(date);
  return read && dateExists(read) && read.year >= firstYear && read.year <= lastYear ? date : null;
}

/** The first day that is written anywhere in a line of text. */
export function dayIn(line: string): string | null {
  const [found] = anywhere.exec(line) ?? [];
  return found === undefined ? null : writtenDay(found);
}

/** Year, month and day. */
function partsOf(image: string): readonly string[] | null {
  const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
  const name = /\p{L}{3,}/u.exec(image.replace(/\d+(?:st|nd|rd|th)/, (found) => found.slice(0, -2)))?.[0];
  const figures = [...image.matchAll(/\d+/g)].map(([digits]) => digits);
  if (name !== undefined) {
    const year = figures.find((digits) => digits.length === 4);
    const date = figures.find((digits) => digits.length < 3);
    const number = months.indexOf(name.slice(0, 3)) + 1;
    return year !== undefined && date !== undefined && number > 0 ? [year, String(number), date] : null;
  }
  const [first = '', second = '', third = ''] = figures;
  if (first.length === 8) return [first.slice(0, 4), first.slice(4, 6), first.slice(6)];
  if (first.length === 4) return [first, second, third];
  if (third.length !== 4) return null;
  // 4.3.2026 is day.month in the trade; 3/4/2026 may be both, unless one of the two can be no month.
  const either = Number(first) > 12 || first === second || image.includes('.');
  if (either) return [third, second, first];
  return Number(second) > 12 ? [third, first, second] : null;
}
