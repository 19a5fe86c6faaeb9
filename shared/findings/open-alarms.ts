import type { Study } from '../trim/study.ts';
import { placedIn } from './engine/placed-acceptances.ts';
import type { Finding } from './finding.ts';
import { toFinding, type Rule } from './rule.ts';
import { veryLow } from './rules/low-in-capsule.ts';
import { rangeRules } from './rules/range.ts';
import { redFlag } from './rules/signs.ts';
import { sinking } from './rules/sinking.ts';
import { thinByUltrasound } from './rules/thin-by-ultrasound.ts';

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
  [veryLow, 'error'],
  [thinByUltrasound, 'error'],
  ...rangeRules.filter(({ code }) => code === 'range/sole-depth.tip').map((rule) => [rule, 'error'] as const),
];

/**
 * Every alarm that is open: signs and grave lameness that the vet has not seen, a bone that sinks or may be sinking, or that
 * lies very low, a sole too thin. The gravest first, then in the order of the text. No setting silences one.
 */
export function openAlarms(study: Study): OpenAlarm[] {
  const dates = new Map(study.record.visits.map(({ start, is }) => [start, is.date]));
  const alarms: OpenAlarm[] = [];
  for (const [rule, from] of alarming)
    for (const { start, ...remark } of rule.onCase?.(study) ?? []) {
      const { code, severity, message, at, past } = toFinding(rule, remark, start);
      if (past || (severity !== 'error' && (severity !== 'warning' || from === 'error'))) continue;
      if (rule.never === undefined && livedWith(code, at, study)) continue;
      alarms.push({ code, severity, message, at, date: dates.get(start) ?? null });
    }
  return alarms.sort((a, b) => rank(a) - rank(b) || a.at.start - b.at.start);
}

function livedWith(code: string, at: Finding['at'], { record }: Study): boolean {
  return placedIn(record).some(
    ({ is, within }) =>
      is.code === code && is.because.text.trim() !== '' && within.start <= at.start && at.end <= within.end,
  );
}

const rank = ({ severity }: OpenAlarm): number => (severity === 'error' ? 0 : 1);
