import { parse, type BlockMemory } from '../notation/parse.ts';
import type { Tree } from '../notation/tree.ts';
import { assemble } from '../record/assemble.ts';
import {
  studyCase,
  usualStudy,
  type StoredScales,
  type StudiedCut,
  type StudiedFilm,
  type StudiedReading,
  type Study,
  type StudySettings,
} from '../trim/study.ts';
import { withAcceptances } from './accepted.ts';
import { findCode, rules } from './catalogue.ts';
import { cutFixes } from './cut-fixes.ts';
import { cutRules } from './cut-limits.ts';
import type { Finding } from './finding.ts';
import { groundOf, ofCut, ofReading } from './remembered.ts';
import { toFinding, type Rule } from './rule.ts';
import { atLevels, noLevels, type Levels } from './severity-levels.ts';
import { widened } from './whole-lines.ts';

/** Everything that is known of a case file. */
export interface Inspection {
  readonly tree: Tree;
  readonly study: Study;
  /** In the order of the text. */
  readonly findings: readonly Finding[];
}

export interface InspectSettings extends StudySettings {
  /** How gravely codes are told, where not as usual. */
  readonly levels?: Levels;
}

/** Text to findings, the whole pipeline. Pure and total: any text gives an inspection. */
export function inspect(
  text: string,
  settings: InspectSettings = usualStudy,
  memory?: BlockMemory,
  scales?: StoredScales,
): Inspection {
  const tree = parse(text, memory);
  const { record, problems } = assemble(tree);
  const study = studyCase(record, settings, scales);
  const findings: Finding[] = problems.map((problem) => ({
    ...problem,
    severity: findCode(problem.code)?.severity ?? 'error',
    related: problem.related ?? [],
    fixes: widened(problem.fixes, text),
  }));
  for (const finding of findingsOf(study)) findings.push(finding);
  const told = atLevels(withAcceptances(findings, record, text), settings.levels ?? noLevels);
  told.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end);
  return { tree, study, findings: told };
}

/** The findings that lie between two places of the file; `findings` in the order of the text, as `inspect` gives them. */
export function findingsWithin(findings: readonly Finding[], start: number, end: number): Finding[] {
  let low = 0;
  let high = findings.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((findings[middle] as Finding).at.start < start) low = middle + 1;
    else high = middle;
  }
  const found: Finding[] = [];
  for (let index = low; index < findings.length; index++) {
    const finding = findings[index] as Finding;
    if (finding.at.start > end) break;
    if (finding.at.end <= end) found.push(finding);
  }
  return found;
}

function* findingsOf(study: Study): Iterable<Finding> {
  const ground = groundOf(study);
  for (const rule of rules) {
    if (rule.onVisit)
      for (const visit of study.record.visits)
        for (const remark of rule.onVisit(visit, study)) yield toFinding(rule, remark, visit.start);
    if (rule.onLimits) for (const { start, ...remark } of rule.onLimits(study)) yield toFinding(rule, remark, start);
  }
  for (const film of study.films)
    for (const reading of film.readings) {
      yield* ofReading(film, reading, ground, () => [...onReading(near, film, reading, study)]);
      yield* onReading(across, film, reading, study);
    }
  for (const cut of study.cuts) {
    yield* ofCut(cut, ground, () => [...onCut(near, cut, study)]);
    yield* onCut(across, cut, study);
  }
}

/** Rules that look at other films too are asked each time; the others only when what they look at has changed. */
const near = rules.filter((rule) => !rule.across);
const across = rules.filter((rule) => rule.across);

function* onReading(
  those: readonly Rule[],
  film: StudiedFilm,
  reading: StudiedReading,
  study: Study,
): Iterable<Finding> {
  for (const rule of those)
    if (rule.onReading)
      for (const remark of rule.onReading(film, reading, study)) yield toFinding(rule, remark, film.visit.start);
}

function* onCut(those: readonly Rule[], cut: StudiedCut, study: Study): Iterable<Finding> {
  for (const rule of those) {
    if (!rule.onCut) continue;
    const limited = cutRules.some((one) => one === rule);
    for (const remark of rule.onCut(cut, study)) {
      const fixes = limited ? [...(remark.fixes ?? []), ...cutFixes(cut, study)] : remark.fixes;
      yield toFinding(rule, fixes ? { ...remark, fixes } : remark, cut.visit.start);
    }
  }
}
