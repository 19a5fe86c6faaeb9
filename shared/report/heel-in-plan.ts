import type { Inspection } from '../findings/inspect.ts';
import type { Edit } from '../notation/problems.ts';
import { LineMap } from '../notation/line-map.ts';

/**
 * What writes a heel cut, mm, into the plan whose header stands on `line` (from 0): the number that is there, else a line of
 * its own below the header. Null where no plan stands there.
 */
export function heelInPlan({ tree, study }: Inspection, line: number, mm: number): Edit | null {
  const map = new LineMap(tree.text);
  const found = study.cuts.find(
    ({ cut, visit }) => cut.kind === 'plan' && map.at(visit.start + cut.head.start).line === line,
  );
  if (!found || !Number.isFinite(mm) || mm < 0) return null;
  const { cut, visit } = found;
  const text = `${Number(mm.toFixed(1))} mm`;
  if (cut.heelDown) return { start: visit.start + cut.heelDown.at.start, end: visit.start + cut.heelDown.at.end, text };
  const header = visit.start + cut.head.start;
  const after = /[^\r\n]*/.exec(tree.text.slice(header))?.[0].length ?? 0;
  const indent = /[^\S\r\n]*$/.exec(tree.text.slice(0, header))?.[0] ?? '';
  const lineEnd = /\r?\n/.exec(tree.text)?.[0] ?? '\n';
  return { start: header + after, end: header + after, text: `${lineEnd}${indent}  heel  down ${text}` };
}
