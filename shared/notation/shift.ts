import type { Problem } from './problems.ts';

/** A problem of a block with its offsets counted in the file. */
export function shift<Code extends string>(problem: Problem<Code>, by: number): Problem<Code> {
  if (by === 0) return problem;
  return {
    ...problem,
    at: { start: problem.at.start + by, end: problem.at.end + by },
    fixes: problem.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, start: edit.start + by, end: edit.end + by })),
    })),
  };
}
