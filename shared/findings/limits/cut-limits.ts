import type { MeasureName } from '../../measures/names.ts';
import { CutJudge, type CutFigures } from '../../trim/cut-limits.ts';
import type { Footing } from '../../trim/stand.ts';
import type { RuleContext } from '../rule.ts';
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
  };
}

export function judgeOn(footing: Footing, foot: string, study: CutContext, day: number | null): CutJudge {
  return new CutJudge(footing, cutFigures(foot, study, day));
}
