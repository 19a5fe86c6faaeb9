import { findCode } from '../findings/catalogue.ts';
import type { Inspection } from '../findings/inspect.ts';
import { LineMap } from '../notation/line-map.ts';
import { assemble } from '../record/assemble.ts';
import { isGroup, isStatement, type Entry } from '../notation/tree.ts';

/** What is told of a line that so counts for nothing, whatever level somebody has given it. */
const lost = /^(?:notation\/|measure\/|record\/(?!dates-backwards))/;

/** The lines of a case that could not be read, or count for nothing as they are; from 1, in order. */
export function unreadLines({ tree, findings }: Pick<Inspection, 'tree' | 'findings'>): readonly number[] {
  // What is said of the lines themselves is asked anew: a level that switches it off does not make them read.
  const told = [...assemble(tree).problems, ...findings];
  const lines = new Set<number>();
  for (const { line, block } of tree.blocks) {
    const look = (entry: Entry): void => {
      const own = isGroup(entry) ? entry.header : isStatement(entry) ? entry : null;
      if (own && !own.whole) lines.add(line + own.line + 1);
      if (isGroup(entry)) entry.entries.forEach(look);
    };
    if (block.header && !block.header.whole) lines.add(line + block.header.line + 1);
    block.entries.forEach(look);
  }
  const map = new LineMap(tree.text);
  for (const { code, at } of told)
    if (lost.test(code) && findCode(code)?.severity === 'error') lines.add(map.at(at.start).line + 1);
  return [...lines].sort((a, b) => a - b);
}
