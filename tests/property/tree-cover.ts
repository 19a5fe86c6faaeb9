import type { Block, Tree } from '../../shared/notation/tree.ts';

/** Why the tree does not cover its text, or null where it does: lines join end to end, items lie in order within them, only blanks between. */
export function coverageFault(tree: Tree): string | null {
  if (tree.blocks.map(({ block }) => block.text).join('') !== tree.text) return 'the blocks do not make up the text';
  let start = 0;
  let line = 0;
  for (const placed of tree.blocks) {
    if (placed.start !== start) return `a block starts at ${placed.start}, not at ${start}`;
    if (placed.line !== line) return `a block starts on line ${placed.line}, not on ${line}`;
    const fault = blockFault(placed.block);
    if (fault) return fault;
    start += placed.block.text.length;
    line += placed.block.lines.length;
  }
  return null;
}

function blockFault({ text, lines, problems }: Block): string | null {
  let end = 0;
  for (const line of lines) {
    if (line.start !== end) return `a line starts at ${line.start}, not at ${end}`;
    end = line.end;
    let at = line.start;
    for (const part of [...line.items, ...(line.prose ? [line.prose] : []), ...(line.comment ? [line.comment] : [])]) {
      if (part.start < at || part.end > line.end) return `an item at ${part.start} lies outside its place`;
      if (text.slice(at, part.start).trim() !== '') return `«${text.slice(at, part.start)}» is in no item`;
      at = part.end;
    }
    if (text.slice(at, line.end).trim() !== '') return `«${text.slice(at, line.end)}» is in no item`;
  }
  if (end !== text.length) return `the lines end at ${end}, the text at ${text.length}`;
  for (const { at } of problems)
    if (at.start < 0 || at.end > text.length || at.start > at.end)
      return `a problem lies at ${at.start} to ${at.end}, outside the text`;
  return null;
}
