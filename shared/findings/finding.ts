import type { Fix, Related } from '../notation/problems.ts';
import type { Span } from '../notation/tree.ts';
import type { Severity } from '../reference/severity.ts';

export type { Related, Severity };

/** Something to tell about a case file. Offsets count UTF-16 units from the start of the file. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly at: Span;
  readonly message: string;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
  /** Set where the finding rests on a number. */
  readonly measure?: string;
  readonly value?: number;
  readonly limit?: number;
  readonly source?: string;
  /** Why somebody lives with it, where the file says so. It then counts no more than a note. */
  readonly accepted?: string;
  /** Set where a newer film, plan or trim of the foot speaks in its place. */
  readonly past?: true;
}
