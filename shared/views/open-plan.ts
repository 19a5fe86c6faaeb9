import type { FootName } from '../notation/choices.ts';
import { isBefore, type When } from '../trim/film-series.ts';
import type { StudiedCut, Study } from '../trim/study.ts';

/** The newest plan of a foot up to a day, where no trim of that foot came after it; null where none is open. */
export function openPlan(foot: FootName, { cuts }: Pick<Study, 'cuts'>, upTo = Infinity): StudiedCut | null {
  const own = cuts.flatMap((studied) => {
    const at = studied.cut.foot === foot ? momentOfCut(studied) : null;
    return at && at.day <= upTo ? [{ studied, at }] : [];
  });
  const last = own.toSorted((a, b) => (isBefore(a.at, b.at) ? -1 : 1)).at(-1)?.studied;
  return last?.cut.kind === 'plan' ? last : null;
}

/** Within a day what stands further down came later; null for a cut without a day. */
export function momentOfCut({ visit, cut, day }: Pick<StudiedCut, 'visit' | 'cut' | 'day'>): When | null {
  return day === null ? null : { day, at: visit.start + cut.head.start };
}
