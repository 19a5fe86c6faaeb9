import type { AcrossFinding, AcrossRule, CaseOfFile } from './across-rule.ts';
import { sameCode } from './same-code.ts';
import { samePicture } from './same-picture.ts';

/** Every rule over all case files of a folder. */
export const acrossRules: readonly AcrossRule[] = [sameCode, samePicture];

/** What is to be told of each file because of the others, by `file`; files of which nothing is told are left out. */
export function acrossFiles(cases: readonly CaseOfFile[]): ReadonlyMap<string, readonly AcrossFinding[]> {
  const told = new Map<string, AcrossFinding[]>();
  for (const rule of acrossRules)
    for (const remark of rule.onCases(cases)) {
      const finding = { ...remark, code: rule.code, severity: rule.severity };
      const before = told.get(remark.file);
      if (before) before.push(finding);
      else told.set(remark.file, [finding]);
    }
  return told;
}
