import { t } from '../../language/words.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { Limit } from '../../record/schema.ts';
import type { Remark, Rule, RuleContext } from '../rule.ts';
import { fits } from '../limits/fitting-units.ts';
import { isLooser, usualLines, usualOf, type Lines } from '../limits/limits.ts';
import { sayLimit } from '../wording/wording.ts';

/** Limits of the case that allow more than the published ones. */
export const loosenedLimit: Rule = {
  code: 'limits/loosened',
  severity: 'warning',
  title: 'Limit looser than the published one',
  about:
    'A case may tighten a limit freely. To loosen one takes a reason that the next reader can see, written with `because`; then it stays visible as information.',
  never: 'Give the limit itself its reason: … because "…"',
  *onCase(study) {
    for (const { start, is } of study.record.limits) {
      const usual = linesOf(is, study);
      const line = usual && usualOf(usual)[is.relation === '>=' ? 'low' : 'high'];
      if (!usual || line === null || line === undefined || !isLooser(is, usual)) continue;
      const set = usual.lines.find(({ at }) => at === line)?.set ?? null;
      yield { ...remark(is, line, set), start };
    }
  },
};

function linesOf(limit: Limit, study: RuleContext): Lines | undefined {
  const measure = findMeasure(limit.measure);
  if (!measure || !fits(measure, limit.quantity)) return undefined;
  return ['LF', 'LH'].map((foot) => usualLines(measure.name, foot, study)).find(({ lines }) => lines.length > 0);
}

function remark(limit: Limit, usual: number, set: string | null): Remark {
  const unit = findMeasure(limit.measure)?.unit ?? 'mm';
  const line = t(
    '{0} {1} {2} allows more than {3} {4}',
    limit.measure,
    limit.relation,
    sayLimit(limit.quantity.base, unit),
    set === null ? t('the published') : t('{0} with', set),
    sayLimit(usual, unit),
  );
  if (limit.because !== null)
    return { at: limit.at, severity: 'info', message: t('{0}, because: {1}', line, limit.because) };
  return {
    at: limit.at,
    message: t('{0}. It counts only with a reason, for whoever reads this next: … because "…"', line),
    fixes: [{ title: t('Add because'), edits: [{ start: limit.at.end, end: limit.at.end, text: ' because ""' }] }],
  };
}
