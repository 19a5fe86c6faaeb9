import type { Item, Line, Statement } from '../notation/tree.ts';
import * as read from './arguments.ts';
import type { Visit } from './schema.ts';

/**
 * A line of lameness that gives no grade, as it stands: `obel 3.5`, `obel 2-3`, `obel 3/5`, `obel III`, `obel grade 4`. Null
 * for every other line.
 */
export function unreadGrade({ kind, head }: Statement, line: Line | undefined): Visit['obelUnread'] {
  if (!/^obel$/i.test(head.image) || (kind !== 'statement' && kind !== 'unknown')) return null;
  const items = line?.items.slice(1) ?? [];
  const [first] = items;
  const last = items.at(-1);
  if (!first || !last) return { written: '', value: null, at: read.spanOf(head) };
  const written = items
    .map((item, index) => `${index > 0 && items[index - 1]?.end !== item.start ? ' ' : ''}${imageOf(item)}`)
    .join('');
  return { written: shortened(written), value: largestIn(written), at: { start: first.start, end: last.end } };
}

function imageOf(item: Item): string {
  switch (item.kind) {
    case 'number':
      return `${item.number.fraction ?? item.number.image}${item.unit ? ` ${item.unit.image}` : ''}`;
    case 'point':
      return `${item.x.image},${item.y.image}`;
    case 'segment':
      return [...item.from, ...item.to].map(({ image }) => image).join(' ');
    default:
      return item.image;
  }
}

/** Enough of it to be found again in the text. */
function shortened(written: string): string {
  // Not in the middle of a pair of surrogates.
  return written.length > 25 ? `${written.slice(0, 24).replace(/[\ud800-\udbff]$/, '')}…` : written;
}

/** Grades as people write them out. */
const words: Readonly<Record<string, number>> = {
  i: 1,
  ii: 2,
  iii: 3,
  iv: 4,
  v: 5,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
};

/** Far above every scale of lameness that is in use: what is larger still tells no more. */
const most = 99;

/** The largest number that is written there, of whatever sign, 99 at most; `2+` is more than 2, and `3/5` is three of five. */
function largestIn(written: string): number | null {
  let largest: number | null = null;
  const grades = written.toLowerCase().replaceAll(/(\d)\s*\/\s*\d+/g, '$1');
  for (const [found] of grades.matchAll(/\d+(?:[.,]\d+)?\+?|[a-z]+/g)) {
    const value =
      words[found] ??
      (/^\d/.test(found) ? parseFloat(found.replace(',', '.')) + (found.endsWith('+') ? 0.5 : 0) : null);
    if (value !== null && value > (largest ?? -1)) largest = value;
  }
  return largest === null ? null : Math.min(largest, most);
}
