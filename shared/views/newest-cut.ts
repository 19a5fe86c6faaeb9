import type { CutSheet } from './film-sheet.ts';

/** The cut to look at first: the newest that can be drawn, and of one day the plan, since it was there before the trim. */
export function newestCut(cuts: readonly CutSheet[]): CutSheet | null {
  const drawable = cuts.filter(({ after }) => after !== null);
  const later = (a: CutSheet, b: CutSheet): boolean => {
    const [dayA, dayB] = [a.date ?? '', b.date ?? ''];
    return dayA === dayB ? a.kind === 'plan' || b.kind === 'trim' : dayA > dayB;
  };
  return drawable.reduce<CutSheet | null>((newest, cut) => (newest && !later(cut, newest) ? newest : cut), null);
}
