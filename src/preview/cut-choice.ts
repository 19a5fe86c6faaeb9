import type { CutSheet, FilmSheet } from '../../shared/views/film-sheet.ts';

/** What a person chose who took the cut off the plate. */
export const NO_CUT = 'none';

/** What a cut is known by while its text changes: of two of one kind and day, its number among them. */
export function cutKey(cuts: readonly CutSheet[], cut: CutSheet): string {
  const alike = cuts.filter(({ kind, date }) => kind === cut.kind && date === cut.date);
  return [cut.kind, cut.date ?? '', alike.indexOf(cut)].join('\n');
}

interface CutLines {
  readonly line: number;
  readonly endLine: number;
}

/** The plan or trim that the cursor is in. */
export function cutOn<T extends CutLines>(film: { readonly cuts: readonly T[] } | null, line: number | null): T | null {
  if (!film || line === null) return null;
  return film.cuts.find((cut) => cut.line <= line && line <= cut.endLine) ?? null;
}

/**
 * The cut that is laid over the plate: the one that was chosen by hand, else the one that the cursor is in. None where
 * nothing can be drawn of it.
 */
export function laidCut(sheet: FilmSheet, chosen: string | null, line: number | null): CutSheet | null {
  if (chosen === NO_CUT) return null;
  const cut = sheet.cuts.find((one) => cutKey(sheet.cuts, one) === chosen) ?? cutOn(sheet, line);
  return cut?.after ? cut : null;
}

/** The choice after the button of a cut is pressed, which lays it over or takes it off. */
export function pressedCut(sheet: FilmSheet, chosen: string | null, line: number | null, key: string): string {
  const laid = laidCut(sheet, chosen, line);
  return laid && cutKey(sheet.cuts, laid) === key ? NO_CUT : key;
}

/** Where the cursor comes into another plan or trim, that one counts again and no choice before it. */
export function choiceAfterMove(before: CutLines | null, now: CutLines | null, chosen: string | null): string | null {
  return now && now !== before ? null : chosen;
}
