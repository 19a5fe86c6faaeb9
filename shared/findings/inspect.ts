import type { KeyFiles } from '../lessons/key-seen.ts';
import { parse, type BlockMemory } from '../notation/parse.ts';
import type { Tree } from '../notation/tree.ts';
import { assemble } from '../record/assemble.ts';
import {
  studyCase,
  usualStudy,
  type PicturesMissing,
  type StoredScales,
  type Study,
  type StudySettings,
} from '../trim/study.ts';
import { withAcceptances } from './engine/accepted.ts';
import { findCode } from './catalogue.ts';
import type { Finding } from './finding.ts';
import { usualPast, withPast, type Past } from './engine/past.ts';
import { atLevels, noLevels, type SeverityLevels } from './engine/severity-levels.ts';
import { inTextOrder, merged } from './engine/text-order.ts';
import { ofCase, ofVisits } from './engine/told.ts';
import { widened, withLines } from './engine/whole-lines.ts';

/** Everything that is known of a case file. */
export interface Inspection {
  readonly tree: Tree;
  readonly study: Study;
  /** In the order of the text. */
  readonly findings: readonly Finding[];
}

export interface InspectSettings extends StudySettings {
  /** How gravely codes are told, where not as usual. */
  readonly levels?: SeverityLevels;
  /** What becomes of what is past, where not as usual. */
  readonly past?: Past;
}

/** Text to findings, the whole pipeline. Pure and total: any text gives an inspection. */
export function inspect(
  text: string,
  settings: InspectSettings = usualStudy,
  memory?: BlockMemory,
  scales?: StoredScales,
  isMissing?: PicturesMissing,
  keys?: KeyFiles,
): Inspection {
  const tree = parse(text, memory);
  const { record, problems } = assemble(tree);
  const study = studyCase(record, settings, scales, isMissing, keys);
  const ofText: Finding[] = problems.map((problem) => ({
    ...problem,
    severity: findCode(problem.code)?.severity ?? 'error',
    related: problem.related ?? [],
    fixes: widened(problem.fixes, text),
  }));
  for (const finding of ofCase(study)) ofText.push(finding);
  const told = withLines(merged(inTextOrder(ofText), ofVisits(study)), text);
  const levelled = atLevels(withAcceptances(told, record, text), settings.levels ?? noLevels);
  const wished = withPast(levelled, settings.past ?? usualPast);
  return { tree, study, findings: wished === told ? told : inTextOrder([...wished]) };
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
