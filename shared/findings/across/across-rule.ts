import type { LineSpan } from '../../notation/line-span.ts';
import type { Severity } from '../finding.ts';
import type { CaseFacts } from './case-facts.ts';

/** One case file among others. */
export interface CaseOfFile {
  /** By which it is known to whoever asks: a URI, a path. */
  readonly file: string;
  /** As it is called in a sentence. */
  readonly called: string;
  readonly facts: CaseFacts;
}

export interface AcrossRemark {
  readonly file: string;
  readonly at: LineSpan;
  readonly message: string;
  readonly related: readonly { readonly file: string; readonly at: LineSpan; readonly message: string }[];
}

/** Something to tell about a case file because of what stands in another. */
export interface AcrossFinding extends AcrossRemark {
  /** Nobody accepts it in a file. */
  readonly accepted?: undefined;
  readonly code: string;
  readonly severity: Severity;
}

/** One thing that is looked for in all case files of a folder together. It sees their facts, not their texts. */
export interface AcrossRule {
  readonly code: string;
  readonly severity: Severity;
  readonly title: string;
  readonly about: string;
  /** What to do instead of accepting it: a line in one file cannot speak for the other. */
  readonly elsewhere: string;
  onCases(cases: readonly CaseOfFile[]): Iterable<AcrossRemark>;
}
