import { readBlock } from './block-reader.ts';
import type { Problem } from './problems.ts';
import { splitBlocks } from './split.ts';
import type { Block, BlockContents, Entry, Line, PlacedBlock, Statement, Tree } from './tree.ts';
import { unchanged } from './unchanged.ts';
import type { BlockRow } from './vocabulary.ts';

/** The tree of the text before. A pure parser makes that memory all there is to being incremental. */
export class BlockMemory {
  tree: Tree | null = null;
}

/** Never throws; the blocks' texts in order are the whole text. A memory changes nothing but the time it takes. */
export function parse(text: string, memory?: BlockMemory): Tree {
  const before = memory?.tree;
  if (before?.text === text) return before;
  const tree = before ? parseAfter(before, text) : parseWhole(text);
  if (memory) memory.tree = tree;
  return tree;
}

export function parseBlock(text: string): Block {
  return new ReadBlock(text);
}

function parseWhole(text: string): Tree {
  const blocks: PlacedBlock[] = [];
  place(blocks, text, 0, 0, parseBlock);
  return { text, blocks };
}

function parseAfter(before: Tree, text: string): Tree {
  const { leading, trailing } = unchanged(before, text);
  // Whether a header begins a block hangs on the block above it too, so that the first of those behind is split off anew.
  const kept = Math.max(0, trailing - 1);
  const tree = parseBetween(before, text, leading, kept);
  const first = tree.blocks.at(-kept - 1)?.block.text;
  const asBefore = trailing === 0 || first === before.blocks.at(-trailing)?.block.text;
  return asBefore ? tree : parseBetween(before, text, leading, 0);
}

/** Takes so many blocks at the beginning and at the end of a tree as they are. */
function parseBetween(before: Tree, text: string, leading: number, trailing: number): Tree {
  const behind = before.blocks.slice(before.blocks.length - trailing);
  // What stood between, by text: a block may have been moved.
  const known = new Map<string, Block>();
  for (const { block } of before.blocks.slice(leading, before.blocks.length - trailing)) known.set(block.text, block);
  const blockOf = (part: string): Block => known.get(part) ?? parseBlock(ownCopy(part));

  const { start, line } = before.blocks[leading] as PlacedBlock;
  const right = text.length - before.text.length;
  const end = (behind[0]?.start ?? before.text.length) + right;
  const blocks = before.blocks.slice(0, leading);
  const nextLine = start < end || text === '' ? place(blocks, text.slice(start, end), start, line, blockOf) : line;

  const down = nextLine - (behind[0]?.line ?? nextLine);
  for (const placed of behind)
    blocks.push(
      right === 0 && down === 0
        ? placed
        : { start: placed.start + right, line: placed.line + down, block: placed.block },
    );
  return { text, blocks };
}

/** Adds the blocks of a text that begins at an offset and a line of the file; gives the line behind it. */
function place(
  blocks: PlacedBlock[],
  text: string,
  start: number,
  firstLine: number,
  blockOf: (part: string) => Block,
): number {
  let line = firstLine;
  for (const part of splitBlocks(text)) {
    blocks.push({ start: start + part.start, line, block: blockOf(text.slice(part.start, part.end)) });
    line += part.lines;
  }
  return line;
}

/** With characters of its own. A slice keeps the whole text that it was cut from, here one for each change of a file. */
function ownCopy(part: string): string {
  return `${part} `.slice(0, -1);
}

/** A block that is read when first asked what it holds. */
class ReadBlock implements Block {
  readonly text: string;
  private kept: BlockContents | null = null;

  constructor(text: string) {
    this.text = text;
  }

  private keep(): BlockContents {
    return (this.kept ??= readBlock(this.text));
  }

  get row(): BlockRow | null {
    return this.keep().row;
  }

  get header(): Statement | null {
    return this.keep().header;
  }

  get lines(): readonly Line[] {
    return this.keep().lines;
  }

  get entries(): readonly Entry[] {
    return this.keep().entries;
  }

  get problems(): readonly Problem[] {
    return this.keep().problems;
  }
}
