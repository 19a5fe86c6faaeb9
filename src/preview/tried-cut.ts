import type { CutSheet, FilmSheet } from '../../shared/views/film-sheet.ts';
import type { HeelPart } from '../../shared/edits/heel-in-plan.ts';
import { triedCut } from '../../shared/views/live-sheet.ts';
import { cutKey } from './cut-choice.ts';

/** A heel cut that is being tried with the slider, and is not in the text yet. */
export interface TriedCut {
  /** Key of the plan. */
  readonly cut: string;
  readonly part: HeelPart;
  readonly mm: number;
}

/** The cuts of a film, the one that is tried as it would come out. */
export function cutsWith(sheet: FilmSheet, tried: TriedCut | null): readonly CutSheet[] {
  if (!tried) return sheet.cuts;
  return sheet.cuts.map((cut) =>
    cutKey(sheet.cuts, cut) === tried.cut
      ? triedCut(sheet, cut, { ...cut.size, [tried.part === 'from' ? 'heelFrom' : 'heelDown']: tried.mm })
      : cut,
  );
}
