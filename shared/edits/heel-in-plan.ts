import type { Inspection } from '../findings/inspect.ts';
import type { Edit } from '../notation/problems.ts';
import { endOfLine, indentWithin } from '../notation/line-bounds.ts';
import { LineMap } from '../notation/line-map.ts';
import { isGroup, type Tree } from '../notation/tree.ts';
import { bendPlace } from '../notation/ranges.ts';
import { placingBounds } from './placing-bounds.ts';

/** Of a heel cut: how much, or of one on two planes from where on, mm in front of its contact. */
export type HeelPart = 'down' | 'from';

/**
 * What writes a heel cut, mm, into the plan whose header stands on `line` (from 0): the number that is there, else a line of
 * its own below the header. From where on it has a plane of its own is written over the number that is there. Null where no such plan
 * stands there.
 */
export function heelInPlan(
  { tree, study }: Inspection,
  line: number,
  mm: number,
  part: HeelPart = 'down',
): Edit | null {
  const map = new LineMap(tree.text);
  const found = study.cuts.find(
    ({ cut, visit }) => cut.kind === 'plan' && map.at(visit.start + cut.head.start).line === line,
  );
  if (!found || !(mm >= (part === 'from' ? bendPlace.low : 0) && mm <= placingBounds.heel[part])) return null;
  const { cut, visit } = found;
  const text = `${Number(mm.toFixed(1))} mm`;
  if (part === 'from')
    return cut.heelFrom && { start: visit.start + cut.heelFrom.at.start, end: visit.start + cut.heelFrom.at.end, text };
  if (cut.heelDown) return { start: visit.start + cut.heelDown.at.start, end: visit.start + cut.heelDown.at.end, text };
  const header = visit.start + cut.head.start;
  const after = endOfLine(tree.text, header);
  const lineEnd = /\r\n|\n|\r/.exec(tree.text)?.[0] ?? '\n';
  const indent = indentWithin(tree.text, header, firstOf(tree, header));
  return { start: after, end: after, text: `${lineEnd}${indent}heel  down ${text}` };
}

/** Where the first line of a plan begins, by the place of its header; undefined where it has none yet. */
function firstOf({ blocks }: Tree, header: number): number | undefined {
  const placed = blocks.findLast(({ start }) => start <= header);
  const plan = placed?.block.entries.filter(isGroup).find((group) => placed.start + group.header.start === header);
  const first = plan?.entries[0];
  return placed && first && placed.start + first.start;
}
