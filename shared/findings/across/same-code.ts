import { counted, t } from '../../language/words.ts';
import type { AcrossRule, CaseOfFile } from './across-rule.ts';

/** Nobody looks through more of the others than this. */
const most = 5;

export const sameCode: AcrossRule = {
  code: 'case/same-code',
  severity: 'warning',
  title: 'Study code of another case',
  about:
    'A study code stands for one animal in a series. Two case files with the same code would be counted as one, and nobody could tell them apart again.',
  elsewhere: 'Give one of the two cases another code.',
  *onCases(cases) {
    const byCode = new Map<string, CaseOfFile[]>();
    for (const one of cases) {
      if (!one.facts.code) continue;
      const same = byCode.get(one.facts.code.value);
      if (same) same.push(one);
      else byCode.set(one.facts.code.value, [one]);
    }
    for (const [value, same] of byCode) {
      if (same.length < 2) continue;
      for (const { file, facts } of same) {
        if (!facts.code) continue;
        const others = firstOthers(same, file);
        const [first] = others;
        const more = same.length - 2;
        const also = more === 0 ? '' : counted(more, ' and of one more file', ' and of {0} more files');
        yield {
          file,
          at: facts.code.at,
          message: t(
            '«{0}» is the study code of {1}{2} too. Give each case a code of its own; if this is the same animal, keep its visits in one file.',
            value,
            first?.called,
            also,
          ),
          related: others.flatMap((other) =>
            other.facts.code
              ? [{ file: other.file, at: other.facts.code.at, message: t('The same study code in {0}.', other.called) }]
              : [],
          ),
        };
      }
    }
  },
};

function firstOthers(same: readonly CaseOfFile[], file: string): CaseOfFile[] {
  const others: CaseOfFile[] = [];
  for (const one of same) {
    if (one.file !== file) others.push(one);
    if (others.length === most) break;
  }
  return others;
}
