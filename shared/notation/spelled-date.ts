import { dateExists, readDate } from './dates.ts';
import type { Item, Span } from './tree.ts';

/** Dates as people write them out: `4 March 2026`, `March 4, 2026`, `4th of March 2026`, `March 2026`. */

const months = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
] as const;

/** The date that begins at an item and where it stands; null where none does. Without a day only where that will do. */
export function spelledDate(items: readonly Item[], index: number, partial: boolean): (Span & { date: string }) | null {
  const pieces: (Span & { readonly image: string })[] = [];
  for (let at = index; at < items.length && pieces.length < 5; at++) pieces.push(...piecesOf(items[at] as Item));
  for (let count = Math.min(5, pieces.length); count >= 2; count--) {
    const taken = pieces.slice(0, count);
    const date = read(
      taken.map(({ image }) => image.toLowerCase()).filter((word) => word !== 'of'),
      partial,
    );
    const [first, last] = [taken[0], taken.at(-1)];
    if (date !== null && first && last) return { start: first.start, end: last.end, date };
  }
  return null;
}

function piecesOf(item: Item): (Span & { readonly image: string })[] {
  switch (item.kind) {
    case 'number':
      return item.unit ? [item.number, item.unit] : [item.number];
    case 'point':
      return [item.x, item.y];
    case 'word':
      return [item];
    default:
      return [];
  }
}

function read(words: readonly string[], partial: boolean): string | null {
  const year = words.find((word) => /^\d{4}$/.test(word));
  const month = words.map(monthOf).find((number) => number > 0);
  const others = words.filter((word) => word !== year && monthOf(word) === 0 && !/^(?:st|nd|rd|th)$/.test(word));
  if (year === undefined || month === undefined || words.filter((word) => monthOf(word) > 0).length > 1) return null;
  if (others.length > 1 || others.some((word) => !/^\d{1,2}$/.test(word)) || (others.length === 0 && !partial))
    return null;
  const date = [year, String(month), ...others].map((part) => part.padStart(2, '0')).join('-');
  const parts = readDate(date);
  return parts && dateExists(parts) ? date : null;
}

/** 0 where it is no month. Three letters will do. */
function monthOf(word: string): number {
  return word.length < 3
    ? 0
    : months.findIndex((month) => month.startsWith(word) || (word === 'sept' && month === 'september')) + 1;
}
