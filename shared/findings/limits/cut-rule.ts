import { t } from '../../language/words.ts';
import type { Values } from '../../measures/take.ts';
import { usualGrowth } from '../../reference/growth.ts';
import type { JudgedCut, Margin } from '../../trim/cut-limits.ts';
import type { Prediction } from '../../trim/predict.ts';
import type { CutSize } from '../../trim/stand.ts';
import type { StudiedCut } from '../../trim/study.ts';
import type { Remark, Rule, RuleContext } from '../rule.ts';
import { say as sayNumber } from '../wording/wording.ts';
import { judgeOn } from './cut-limits.ts';

/** A cut with what it leaves and the margins of one limit that it breaks. */
export interface BrokenCut {
  readonly size: CutSize;
  readonly before: Values;
  readonly prediction: Prediction;
  /** One at least. */
  readonly broken: readonly Margin[];
}

interface CutRuleParts extends Omit<Rule, 'onCut'> {
  /** `done`: a trim, of which is said what it left, not what to do instead. */
  say(studied: StudiedCut, cut: BrokenCut, study: RuleContext, done: boolean): Iterable<Remark>;
}

/** The rule that tells of a limit of cuts. Whether it is broken is asked of the limit of the same code. */
export function cutRule({ say, ...rule }: CutRuleParts): Rule {
  return {
    ...rule,
    *onCut(studied, study) {
      const broken = brokenBy(judgedCut(studied, study), rule.code);
      const { size, bare } = studied;
      if (broken.length === 0 || !bare) return;
      // A limit holds of the foot itself, whatever it wears on the film.
      const { before, prediction } = bare;
      const done = studied.cut.kind === 'trim';
      let regrown: readonly Margin[] | null = null;
      for (const remark of say(studied, { size, before, prediction, broken }, study, done)) {
        if (!done || (remark.severity ?? rule.severity) !== 'error') yield remark;
        else {
          // Wall has grown since the film: only what is wrong even so is surely wrong.
          regrown ??= brokenBy(judgedRegrown(studied, study), rule.code);
          yield regrown.length > 0 ? remark : allowing(remark, studied);
        }
      }
    },
  };
}

const brokenBy = (judged: JudgedCut | null, code: string): Margin[] =>
  judged?.margins.filter((margin) => margin.broken && margin.code === code) ?? [];

const judged = new WeakMap<RuleContext, WeakMap<StudiedCut, JudgedCut | null>>();

/** Every rule asks about every cut, so a cut is judged once. */
function judgedCut(studied: StudiedCut, study: RuleContext): JudgedCut | null {
  let ofCase = judged.get(study);
  if (!ofCase) judged.set(study, (ofCase = new WeakMap()));
  let found = ofCase.get(studied);
  if (found === undefined) {
    const { foot, cut, film, size } = studied;
    found = foot && judgeOn(foot, cut.foot, study, film?.day ?? null).of(size);
    ofCase.set(studied, found);
  }
  return found;
}

function judgedRegrown(studied: StudiedCut, study: RuleContext): JudgedCut | null {
  return studied.regrown(growthSince(studied), (foot) =>
    judgeOn(foot, studied.cut.foot, study, studied.film?.day ?? null).of(studied.size),
  );
}

/** mm of wall that may have grown from the film to the cut, at the fastest that is told of grown animals. */
function growthSince({ film, day }: StudiedCut): number {
  return day === null || film?.day === null || film === null ? 0 : Math.max(0, day - film.day) * usualGrowth.fast;
}

function allowing(remark: Remark, studied: StudiedCut): Remark {
  return {
    ...remark,
    severity: 'warning',
    message: t(
      '{0} With the {1} of wall that may have grown since the film it need not be so.',
      remark.message,
      sayNumber(growthSince(studied), 'mm'),
    ),
  };
}
