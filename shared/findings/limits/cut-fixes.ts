import { bareFoot } from '../../geometry/planes.ts';
import { plainNumber } from '../../notation/plain-number.ts';
import type { Edit, Fix } from '../../notation/problems.ts';
import type { Quantity } from '../../record/schema.ts';
import { largestHeelCut } from '../../trim/solve.ts';
import type { StudiedCut } from '../../trim/study.ts';
import type { CutContext } from './cut-rule.ts';
import { limitsOn } from './cut-limits.ts';

/** Per-visit limits are kept by coming back; the others are not. */
const perVisit = new Set(['trim/turn-per-visit']);

/**
 * Ways out for a cut that breaks a limit: the largest heel cut that breaks none, and where only the limits of one visit stand
 * in the way, the first of several steps. Edits count from the start of the visit.
 */
export function cutFixes(studied: StudiedCut, study: CutContext): Fix[] {
  const { cut, reading, film, size } = studied;
  const shod = reading?.taking.frame;
  const frame = shod && bareFoot(shod);
  if (!frame) return [];
  const limits = limitsOn(cut.foot, study, film?.day ?? null);
  const solve = (toeDown: number) => largestHeelCut({ frame, limits, toeDown, toeBack: size.toeBack }, size.heelDown);
  const asWritten = solve(size.toeDown);
  if (asWritten && cut.heelDown) {
    const heel = floored(asWritten.heelDown);
    const fixes: Fix[] = [
      { title: `Lower the heel by ${heel} mm, the most that breaks no limit`, edits: [write(cut.heelDown, heel)] },
    ];
    if (asWritten.stoppedBy.every((code) => perVisit.has(code)) && heel > 0)
      fixes.push({
        title: `Take it in steps: ${heel} mm now`,
        edits: [
          write(cut.heelDown, heel),
          addWhy(cut.heelDown, `a first step, ${heel} mm of ${written(cut.heelDown)}; the rest at later visits`),
        ],
      });
    return fixes;
  }
  const toeLeft = cut.toeDown ? solve(0) : null;
  if (!toeLeft || !cut.toeDown) return [];
  const heel = floored(toeLeft.heelDown);
  const edits = [write(cut.toeDown, 0), ...(cut.heelDown && heel < size.heelDown ? [write(cut.heelDown, heel)] : [])];
  const also = edits.length > 1 ? ` and lower the heel by ${heel} mm` : '';
  return [{ title: `Leave the toe’s height alone${also}`, edits }];
}

const floored = (mm: number): number => Math.floor(mm * 10 + 1e-6) / 10;

const written = ({ value, unit }: Quantity): string => `${plainNumber(value)} ${unit}`;

const write = ({ at }: Quantity, mm: number): Edit => ({ start: at.start, end: at.end, text: `${mm} mm` });

function addWhy({ at }: Quantity, why: string): Edit {
  return { start: at.end, end: at.end, text: `why   "${why}"`, newLine: 'below' };
}
