import type { CutLimit, Outcome } from '../trim/solve.ts';
import type { StudiedCut } from '../trim/study.ts';
import type { Remark, Rule, Surroundings } from './rule.ts';

/** What a case and a foot of it bring to a limit of cuts. */
export type CutGround = Pick<Surroundings, 'record' | 'animal' | 'reference' | 'trim'>;

/** A rule of plans and trims that is also a limit which every plan that is computed keeps to. */
export interface CutRule extends Rule {
  limit(foot: string, study: CutGround): CutLimit;
}

interface CutRuleParts extends Omit<Rule, 'onCut'> {
  /** By how much an outcome breaks the limit, 0 or less where it holds. */
  excess(outcome: Outcome, foot: string, study: CutGround): number;
  say(studied: StudiedCut, outcome: Outcome, study: Surroundings): Iterable<Remark>;
}

export function cutRule({ excess, say, ...row }: CutRuleParts): CutRule {
  return {
    ...row,
    limit: (foot, study) => ({ code: row.code, excess: (outcome) => excess(outcome, foot, study) }),
    onCut(studied, study) {
      const outcome = outcomeOf(studied);
      return outcome && excess(outcome, studied.cut.foot, study) > 1e-3 ? say(studied, outcome, study) : [];
    },
  };
}

function outcomeOf({ size, reading, prediction }: StudiedCut): Outcome | null {
  return reading && prediction && { size, before: reading.taking.values, prediction };
}
