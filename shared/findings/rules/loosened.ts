import { findMeasure } from '../../measures/registry.ts';
import { bandFor, usualRange } from '../../reference/bands.ts';
import type { Limit } from '../../record/schema.ts';
import type { Study } from '../../trim/study.ts';
import type { Remark, Rule } from '../rule.ts';
import { sayLimit } from '../wording.ts';

/** Limits of the case that allow more than the published ones. */
export const loosenedLimit: Rule = {
  code: 'limits/loosened',
  severity: 'warning',
  title: 'Limit looser than the published one',
  about: 'A case may tighten a limit freely. To loosen one takes a reason that the next reader can see, written with `because`; then it stays visible as information.',
  *onLimits(study) {
    for (const { start, is } of study.record.limits) {
      const published = publishedLimit(is, study);
      if (published === null) continue;
      const looser = is.relation === '>=' ? is.quantity.base < published : is.quantity.base > published;
      if (!looser) continue;
      yield { ...remark(is, published), start };
    }
  },
};

function publishedLimit(limit: Limit, study: Study): number | null {
  const measure = findMeasure(limit.measure);
  const band = measure && (bandFor(measure.name, 'LF', study.animal) ?? bandFor(measure.name, 'LH', study.animal));
  if (!band) return null;
  return usualRange(band)[limit.relation === '>=' ? 'low' : 'high'];
}

function remark(limit: Limit, published: number): Remark {
  const unit = findMeasure(limit.measure)?.unit ?? 'mm';
  const line = `${limit.measure} ${limit.relation} ${sayLimit(limit.quantity.base, unit)} allows more than the published ${sayLimit(published, unit)}`;
  if (limit.because !== null) return { at: limit.at, severity: 'info', message: `${line}, because: ${limit.because}` };
  return {
    at: limit.at,
    message: `${line}. Say why, for whoever reads this next: … because "…"`,
    fixes: [{ title: 'Add because', edits: [{ start: limit.at.end, end: limit.at.end, text: ' because ""' }] }],
  };
}
