import { usualGrowth } from '../../reference/growth.ts';
import type { CutLimit, CutResult } from '../../trim/solve.ts';
import type { StudiedCut } from '../../trim/study.ts';
import type { Remark, Rule, RuleContext } from '../rule.ts';
import { say as sayNumber } from '../wording/wording.ts';

/** What a case and a foot of it bring to a limit of cuts. */
export type CutContext = Pick<RuleContext, 'record' | 'animal' | 'reference' | 'trim'>;

/** A rule of plans and trims that is also a limit which every plan that is computed keeps to. */
export interface CutRule extends Rule {
  /** `day`: that of the film, for an animal that is not grown yet. */
  limit(foot: string, study: CutContext, day: number | null): CutLimit;
}

interface CutRuleParts extends Omit<Rule, 'onCut'> {
  /** By how much an outcome breaks the limit, 0 or less where it holds. */
  excess(outcome: CutResult, foot: string, study: CutContext, day: number | null): number;
  /** `done`: a trim, of which is said what it left, not what to do instead. */
  say(studied: StudiedCut, outcome: CutResult, study: RuleContext, done: boolean): Iterable<Remark>;
}

export function cutRule({ excess, say, ...row }: CutRuleParts): CutRule {
  return {
    ...row,
    limit: (foot, study, day) => ({ code: row.code, excess: (outcome) => excess(outcome, foot, study, day) }),
    *onCut(studied, study) {
      const outcome = outcomeOf(studied);
      const { foot, kind } = studied.cut;
      const filmed = studied.film?.day ?? null;
      if (!outcome || !(excess(outcome, foot, study, filmed) > tolerance)) return;
      if (kind === 'plan') {
        yield* say(studied, outcome, study, false);
        return;
      }
      let regrown: CutResult | null | undefined;
      for (const remark of say(studied, outcome, study, true)) {
        if ((remark.severity ?? row.severity) !== 'error') yield remark;
        else {
          // Wall has grown since the film: only what is wrong even so is surely wrong.
          if (regrown === undefined) regrown = regrownOutcome(studied);
          yield regrown && excess(regrown, foot, study, filmed) <= tolerance ? allowing(remark, studied) : remark;
        }
      }
    },
  };
}

const tolerance = 1e-3;

/** mm of wall that may have grown from the film to the cut, at the fastest that is told of grown animals. */
function growthSince({ film, day }: StudiedCut): number {
  return day === null || film?.day === null || film === null ? 0 : Math.max(0, day - film.day) * usualGrowth.fast;
}

function regrownOutcome(studied: StudiedCut): CutResult | null {
  const regrown = studied.regrown(growthSince(studied));
  return regrown && { size: studied.size, ...regrown };
}

function allowing(remark: Remark, studied: StudiedCut): Remark {
  return {
    ...remark,
    severity: 'warning',
    message: `${remark.message} With the ${sayNumber(growthSince(studied), 'mm')} of wall that may have grown since the film it need not be so.`,
  };
}

/** A limit holds of the foot itself, whatever it wears on the film. */
function outcomeOf({ size, bare }: StudiedCut): CutResult | null {
  return bare && { size, ...bare };
}
