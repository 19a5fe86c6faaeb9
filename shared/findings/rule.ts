import type { Fix } from '../notation/problems.ts';
import type { Span } from '../notation/tree.ts';
import type { CaseRecord } from '../record/schema.ts';
import type { FilmsByDay } from '../trim/film-series.ts';
import type { Study, StudiedCut, StudiedFilm, StudiedReading, StudiedVisit } from '../trim/study.ts';
import type { Finding, Related, Severity } from './finding.ts';

/** What a rule says when it finds something; `at` counts from the start of the visit (or block) that it looks at. */
export interface Remark {
  readonly at: Span;
  readonly message: string;
  readonly severity?: Severity;
  readonly code?: string;
  /** Counted in the file, as they may lie in another block. */
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
  readonly measure?: string;
  readonly value?: number;
  readonly limit?: number;
  readonly source?: string;
  /** Set where a newer film, plan or trim of the foot speaks in its place. */
  readonly past?: true;
}

/**
 * What a rule may look at beside the visit it is asked about. What is told of a visit is remembered for as long as all this
 * stays the same, so a rule gets to other visits only by asking for a film: the answer is noted.
 */
export interface RuleContext extends Pick<Study, 'reference' | 'trim'> {
  /** Without its weights: what rests on them is told of the case. */
  readonly animal: Omit<Study['animal'], 'weights'>;
  readonly record: Pick<CaseRecord, 'limits'>;
  readonly series: FilmsByDay;
}

/** A remark of a rule that looks at the whole case: `start` is where the block begins that `at` counts from. */
export interface CaseRemark extends Remark {
  readonly start: number;
}

/** One thing that is looked for. A rule looks at the case, at each visit, at each reading of a film, or at each plan and trim. */
export interface Rule {
  readonly code: string;
  readonly severity: Severity;
  /** A few words for the list of codes. */
  readonly title: string;
  /** What is looked at, why it matters in the foot, what to do. */
  readonly about: string;
  /** Set where nobody may live with it: a sentence on what to do instead. It can be neither accepted nor switched off. */
  readonly never?: string;
  onReading?(film: StudiedFilm, reading: StudiedReading, study: RuleContext): Iterable<Remark>;
  onCut?(cut: StudiedCut, study: RuleContext): Iterable<Remark>;
  onVisit?(visit: StudiedVisit, study: RuleContext): Iterable<Remark>;
  /** Looks at the whole case, and runs each time that anything in it changes: for what rests on all films or visits. */
  onCase?(study: Study): Iterable<CaseRemark>;
}

export function toFinding(rule: Rule, remark: Remark, start: number): Finding {
  const moved = (at: Span): Span => ({ start: at.start + start, end: at.end + start });
  const { code = rule.code, severity = rule.severity, message, related = [], fixes = [] } = remark;
  const { measure, value, limit, source, past } = remark;
  return {
    code,
    severity,
    message,
    related,
    at: moved(remark.at),
    fixes: fixes.map((fix) => ({ ...fix, edits: fix.edits.map((edit) => ({ ...edit, ...moved(edit) })) })),
    ...(measure !== undefined && { measure }),
    ...(value !== undefined && { value }),
    ...(limit !== undefined && { limit }),
    ...(source !== undefined && { source }),
    ...(past && { past }),
  };
}
