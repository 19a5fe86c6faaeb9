import { findMeasure } from '../../measures/registry.ts';
import { bandFor, usualRange, type Band } from '../../reference/bands.ts';
import type { Limit } from '../../record/schema.ts';
import type { Study } from '../../trim/study.ts';
import type { Remark, Rule } from '../rule.ts';
import { fits } from '../fitting-units.ts';
import { isLooser } from '../limits.ts';
import { sayLimit } from '../wording.ts';

/** Limits of the case that allow more than the published ones. */
export const loosenedLimit: Rule = {
  code: 'limits/loosened',
  severity: 'warning',
  title: 'Limit looser than the published one',
  about:
    'A case may tighten a limit freely. To loosen one takes a reason that the next reader can see, written with `because`; then it stays visible as information.',
  *onLimits(study) {
    for (const { start, is } of study.record.limits) {
      const band = bandOf(is, study);
      const published = band && usualRange(band)[is.relation === '>=' ? 'low' : 'high'];
      if (!isLooser(is, band) || published === undefined || published === null) continue;
      yield { ...remark(is, published), start };
    }
  },
};

function bandOf(limit: Limit, study: Study): Band | undefined {
  const measure = findMeasure(limit.measure);
  if (!measure || !fits(measure, limit.quantity)) return undefined;
  return bandFor(measure.name, 'LF', study.animal) ?? bandFor(measure.name, 'LH', study.animal);
}

function remark(limit: Limit, published: number): Remark {
  const unit = findMeasure(limit.measure)?.unit ?? 'mm';
  const line = `${limit.measure} ${limit.relation} ${sayLimit(limit.quantity.base, unit)} allows more than the published ${sayLimit(published, unit)}`;
  if (limit.because !== null) return { at: limit.at, severity: 'info', message: `${line}, because: ${limit.because}` };
  return {
    at: limit.at,
    message: `${line}. It counts only with a reason, for whoever reads this next: … because "…"`,
    fixes: [{ title: 'Add because', edits: [{ start: limit.at.end, end: limit.at.end, text: ' because ""' }] }],
  };
}
