import type { Span } from '../../notation/tree.ts';

interface BlockSpan<T> {
  readonly within: Span;
  readonly those: T[];
  around: BlockSpan<T> | null;
}

/** Finds things by the block they stand in. Blocks are nested or apart; no two begin at the same offset. */
export class BlockSpans<T extends { readonly within: Span }> {
  /** In the order of the text, an outer block before those in it. */
  private readonly blocks: BlockSpan<T>[] = [];

  constructor(things: Iterable<T>) {
    const byStart = new Map<number, BlockSpan<T>>();
    for (const thing of things) {
      const { within } = thing;
      const known = byStart.get(within.start);
      if (known) known.those.push(thing);
      else byStart.set(within.start, { within, those: [thing], around: null });
    }
    this.blocks = [...byStart.values()].sort((a, b) => a.within.start - b.within.start);
    let before: BlockSpan<T> | null = null;
    for (const block of this.blocks) {
      while (before && before.within.end < block.within.start) before = before.around;
      block.around = before;
      before = block;
    }
  }

  /** The things of each block around an offset, the innermost block first. */
  *around(place: number): Iterable<readonly T[]> {
    for (let block = this.blocks[this.countBefore(place + 1) - 1] ?? null; block; block = block.around)
      if (place <= block.within.end) yield block.those;
  }

  /** The first thing in the first block that lies within a span. */
  firstIn({ start, end }: Span): T | undefined {
    const block = this.blocks[this.countBefore(start)];
    return block && block.within.end <= end ? block.those[0] : undefined;
  }

  /** How many blocks begin before an offset. */
  private countBefore(place: number): number {
    let [low, high] = [0, this.blocks.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.blocks[middle] as BlockSpan<T>).within.start < place) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
