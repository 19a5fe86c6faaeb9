import type { Severity } from './finding.ts';

/** A code that findings have, and what stands in the docs of it. */
export interface CodeRow {
  readonly code: string;
  readonly severity: Severity;
  readonly title: string;
  readonly about: string;
  /** Set where nobody may live with it: a sentence on what to do instead. It can be neither accepted nor switched off. */
  readonly never?: string;
  /** Set where no line of the file can accept it although it may be switched off: a sentence on what to do instead. */
  readonly elsewhere?: string;
}
