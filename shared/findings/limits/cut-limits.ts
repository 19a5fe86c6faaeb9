import type { MeasureName } from '../../measures/names.ts';
import { CutJudge, type AgreedLimit, type CutFigures } from '../../trim/cut-limits.ts';
import type { Footing } from '../../trim/stand.ts';
import type { RuleContext } from '../rule.ts';
import { limitsByMeasure } from './limits-by-measure.ts';
import { linesFor, usualOf } from './limits.ts';

/** What a case and a foot of it bring to the limits of cuts. */
export type CutContext = Pick<RuleContext, 'record' | 'animal' | 'reference' | 'trim'>;

/** `day`: that of the film that a cut is laid on, for an animal that is not grown yet. */
export function cutFigures(foot: string, study: CutContext, day: number | null): CutFigures {
  const line = (measure: MeasureName, side: 'low' | 'high'): number | null =>
    usualOf(linesFor(measure, foot, study, day))[side];
  return {
    turn: study.trim.turnPerVisit,
    horn: study.trim.hornAtToe,
    palmarAngle: line('palmar-angle', 'low'),
    soleTip: line('sole-depth.tip', 'low'),
    soleWing: line('sole-depth.wing', 'low'),
    rotation: line('capsular-rotation', 'high'),
    agreed: agreedIn(study),
  };
}

/** Those that the lines above do not hold already, with what is agreed of them. */
function agreedIn({ record }: CutContext): AgreedLimit[] {
  return [...limitsByMeasure(record.limits)].flatMap(([measure, { low, high }]) => [
    ...(low && !held.has(measure) ? [{ measure, side: 'low' as const, at: low.is.quantity.base }] : []),
    ...(high ? [{ measure, side: 'high' as const, at: high.is.quantity.base }] : []),
  ]);
}

const held: ReadonlySet<MeasureName> = new Set(['palmar-angle', 'sole-depth.tip', 'sole-depth.wing']);

export function judgeOn(footing: Footing, foot: string, study: CutContext, day: number | null): CutJudge {
  return new CutJudge(footing, cutFigures(foot, study, day));
}
