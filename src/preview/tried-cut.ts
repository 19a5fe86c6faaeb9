import type { CutSheet, FilmSheet } from '../../shared/report/film-sheet.ts';
import { LiveCut } from '../../shared/report/live-cut.ts';
import { cutKey } from './cut-choice.ts';

/** A heel cut that is being tried with the slider, and is not in the text yet. */
export interface TriedCut {
  /** Key of the plan. */
  readonly cut: string;
  /** mm. */
  readonly heelDown: number;
}

const live = new WeakMap<FilmSheet, LiveCut>();

/** The cuts of a film, the one that is tried as it would come out. */
export function cutsWith(sheet: FilmSheet, tried: TriedCut | null): readonly CutSheet[] {
  if (!tried) return sheet.cuts;
  return sheet.cuts.map((cut) => {
    if (cutKey(sheet.cuts, cut) !== tried.cut) return cut;
    const trial = live.get(sheet) ?? new LiveCut(sheet);
    live.set(sheet, trial);
    return trial.at(cut, { ...cut.size, heelDown: tried.heelDown });
  });
}
