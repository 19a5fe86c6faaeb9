import { t } from '../../language/words.ts';
import { plainNumber } from '../../notation/plain-number.ts';
import type { Edit, Fix } from '../../notation/problems.ts';
import type { Quantity } from '../../record/schema.ts';
import type { CutJudge } from '../../trim/cut-limits.ts';
import { mostAtHeel } from '../../trim/heels.ts';
import { grid, largestHeel, stepsIn } from '../../trim/solve.ts';
import type { CutSize } from '../../trim/stand.ts';
import type { StudiedCut } from '../../trim/study.ts';
import { judgeOn, type CutContext } from './cut-limits.ts';

/** Per-visit limits are kept by coming back; the others are not. */
const perVisit = new Set(['trim/turn-per-visit']);

/**
 * Ways out for a cut that breaks a limit: the largest heel cut that breaks none, as surely as plans do, and where only the limits of
 * one visit stand in the way, the first of several steps. Edits count from the start of the visit.
 */
export function cutFixes(studied: StudiedCut, study: CutContext): Fix[] {
  const { cut, foot, film, size } = studied;
  if (!foot) return [];
  const judge = judgeOn(foot, cut.foot, study, film?.day ?? null);
  const sure = study.trim.sure / 100;
  const solve = (toeDown: number, odds = sure) =>
    largestHeel({ ...size, judge, toeDown, sure: odds, atMost: size.heelDown });
  const asWritten = solve(size.toeDown);
  if (asWritten && cut.heelDown) {
    const heel = asWritten.heelDown;
    const even = solve(size.toeDown, 0.5)?.heelDown ?? heel;
    const odds = even > heel ? t(' surely ({0} mm at even odds)', even) : '';
    const fixes: Fix[] = [
      {
        title: t('Lower the heel by {0} mm, the most that breaks no limit{1}', heel, odds),
        edits: [write(cut.heelDown, heel)],
      },
    ];
    if (asWritten.stoppedBy.every(({ code }) => perVisit.has(code)) && heel > 0)
      fixes.push({
        title: t('Take it in steps: {0} mm now', heel),
        edits: [
          write(cut.heelDown, heel),
          addWhy(cut.heelDown, t('a first step, {0} mm of {1}; the rest at later visits', heel, written(cut.heelDown))),
        ],
      });
    return fixes;
  }
  const side = lowerSide(studied, judge, sure);
  if (side) return [side];
  const toeLeft = cut.toeDown ? solve(0) : null;
  if (!toeLeft || !cut.toeDown) return [];
  const heel = toeLeft.heelDown;
  const edits = [write(cut.toeDown, 0), ...(cut.heelDown && heel < size.heelDown ? [write(cut.heelDown, heel)] : [])];
  const also = edits.length > 1 ? t(' and lower the heel by {0} mm', heel) : '';
  return [{ title: t('Leave the toe’s height alone{0}', also), edits }];
}

/** The side that is lowered alone, or more than the other, by as much as breaks no limit; null where it is not what stands in the way. */
function lowerSide({ cut, foot, size }: StudiedCut, judge: CutJudge, sure: number): Fix | null {
  const most = foot && mostAtHeel(foot, size);
  const quantity = most && (most.side === 'inside' ? cut.insideDown : cut.outsideDown);
  if (!quantity) return null;
  const lowered = (mm: number): CutSize => ({
    ...size,
    ...(most.side === 'inside' ? { insideDown: mm } : { outsideDown: mm }),
  });
  for (let steps = stepsIn(quantity.base); steps >= 0; steps--) {
    const mm = steps * grid;
    if (!judge.keeps(lowered(mm), sure)) continue;
    const title =
      most.side === 'inside'
        ? t('Lower the inner side by {0} mm, the most that breaks no limit', mm)
        : t('Lower the outer side by {0} mm, the most that breaks no limit', mm);
    return { title, edits: [write(quantity, mm)] };
  }
  return null;
}

const written = ({ value, unit }: Quantity): string => `${plainNumber(value)} ${unit}`;

const write = ({ at }: Quantity, mm: number): Edit => ({ start: at.start, end: at.end, text: `${mm} mm` });

function addWhy({ at }: Quantity, why: string): Edit {
  return { start: at.end, end: at.end, text: `why   "${why}"`, newLine: 'below' };
}
