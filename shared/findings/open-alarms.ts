import type { Placed, Visit } from '../record/schema.ts';
import type { Study } from '../trim/study.ts';
import { placedIn } from './engine/placed-acceptances.ts';
import type { Finding } from './finding.ts';
import { toFinding, type Rule } from './rule.ts';
import { rangeRules } from './rules/range.ts';
import { redFlag } from './rules/signs.ts';
import { sinking } from './rules/sinking.ts';

/** Something that has to be dealt with before anything is planned, cut or handed on. Places count from the start of the file. */
export interface OpenAlarm extends Pick<Finding, 'code' | 'message' | 'at'> {
  readonly severity: 'error' | 'warning';
  /** Of the visit that it stands in, as written. */
  readonly date: string | null;
}

/** From when on each rule is an alarm. A thin sole is one only where it is an error, and nobody lives with it. */
const alarming: readonly (readonly [rule: Rule, from: 'error' | 'warning'])[] = [
  [redFlag, 'error'],
  [sinking, 'warning'],
  ...rangeRules.filter(({ code }) => code === 'range/sole-depth.tip').map((rule) => [rule, 'error'] as const),
];

/**
 * Every alarm that is open: signs and grave lameness that the vet has not seen, a bone that sinks or may be sinking, a sole
 * too thin. The gravest first, then in the order of the text. No setting silences one.
 */
export function openAlarms(study: Study): OpenAlarm[] {
  const accepted = placedIn(study.record).filter(({ is }) => is.because.text.trim() !== '');
  const alarms: OpenAlarm[] = [];
  for (const [rule, from] of alarming)
    for (const { start, ...remark } of rule.onCase?.(study) ?? []) {
      const finding = toFinding(rule, remark, start);
      const { code, severity, message, at, past } = finding;
      if (past || (severity !== 'error' && severity !== from) || (severity !== 'error' && severity !== 'warning'))
        continue;
      const livedWith = accepted.some(
        ({ is, within }) => is.code === code && within.start <= at.start && at.end <= within.end,
      );
      if (livedWith && rule.never === undefined) continue;
      alarms.push({ code, severity, message, at, date: dateAt(study.record.visits, at.start) });
    }
  return alarms.sort((a, b) => rank(a) - rank(b) || a.at.start - b.at.start);
}

const rank = ({ severity }: OpenAlarm): number => (severity === 'error' ? 0 : 1);

function dateAt(visits: readonly Placed<Visit>[], place: number): string | null {
  return visits.findLast(({ start }) => start <= place)?.is.date ?? null;
}
