import type { Problem } from './problems.ts';
import type { Span } from './tree.ts';

/** A problem of a block with its offsets counted in the file. */
export function shift<Code extends string>(problem: Problem<Code>, by: number): Problem<Code> {
  if (by === 0) return problem;
  const moved = (at: Span): Span => ({ start: at.start + by, end: at.end + by });
  return {
    ...problem,
    ...(problem.related && { related: problem.related.map((one) => ({ ...one, at: moved(one.at) })) }),
    at: moved(problem.at),
    fixes: problem.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, ...moved(edit) })),
    })),
  };
}
