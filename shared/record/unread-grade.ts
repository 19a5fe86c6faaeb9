import type { Span } from '../notation/tree.ts';
import type { Visit } from './schema.ts';

type UnreadGrade = Visit['gradesUnread'][number];

/** A grade out of what stands behind its word in a line that gives none: `3.5`, `2-3`, `3/5`, `III`, `grade 4`, `LF 4 of 5`. */
export function gradeOf(scale: UnreadGrade['scale'], written: string, at: Span): UnreadGrade {
  return { scale, written: shortened(written), value: largestIn(written), at };
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

/** The largest number that is written there, of whatever sign, 99 at most; `2+` is more than 2, and `3/5` or `3 of 5` is three of five. */
function largestIn(written: string): number | null {
  let largest: number | null = null;
  const grades = written.toLowerCase().replaceAll(/(\d)\s*(?:\/|out of|of)\s*\d+/g, '$1');
  for (const [found] of grades.matchAll(/\d+(?:[.,]\d+)?\+?|[a-z]+/g)) {
    const value =
      words[found] ??
      (/^\d/.test(found) ? parseFloat(found.replace(',', '.')) + (found.endsWith('+') ? 0.5 : 0) : null);
    if (value !== null && value > (largest ?? -1)) largest = value;
  }
  return largest === null ? null : Math.min(largest, most);
}
