import { feet, type FootName } from './choices.ts';
import { nearestMeaning } from './meanings.ts';
import type { Item, Line } from './tree.ts';
import { blocks, findBlock, type BlockRow } from './vocabulary.ts';

/** Lines that are meant to begin a block of a visit, and do not: `filmm RF lateral b.png`, `tapeRF`, `RF lateral "b.png"`, `RF`. */

export const innerBlocks: ReadonlyMap<string, BlockRow> = new Map(
  blocks.filter(({ level }) => level > 0).map((row) => [row.word as string, row]),
);

/** With the blank left out, or another sign in its place. */
const glued = new RegExp(`^(${[...innerBlocks.keys()].join('|')})[\\p{L}\\d_./-]?(${feet.join('|')})$`, 'iu');
const picture = /\.(?:png|jpe?g|gif|webp|bmp|tiff?|dcm|dicom|heic)"?$/i;

/** The foot that a piece of a line names, in whatever letters; null where it names none. */
export function footNamed(item: Item | undefined): FootName | null {
  if (item?.kind !== 'word') return null;
  const { image } = item;
  // A word of two or three letters is near to a foot too soon.
  const near = image.length > 3 ? nearestMeaning(image, feet) : image.toUpperCase();
  return feet.find((foot) => foot === near) ?? null;
}

/** Whether a line names a foot behind its first word, or has there what is nearly one. */
export function namesFoot({ items }: Line): boolean {
  const [, first] = items;
  const nearly = first?.kind === 'word' && nearestMeaning(first.image, feet) !== undefined;
  return nearly || items.slice(1).some((item) => footNamed(item) !== null);
}

/** The block that a line would begin whose first word is none of the notation, by the rest of it; undefined where it says of none. */
export function blockMeant(
  line: Line,
  open: BlockRow | null,
): { readonly row: BlockRow; readonly usual: string | null } | undefined {
  const [head, second] = line.items;
  if (head?.kind !== 'word') return undefined;
  const [, word, foot] = glued.exec(head.image) ?? [];
  if (word !== undefined && foot !== undefined)
    return { row: findBlock(word.toLowerCase()) as BlockRow, usual: `${word.toLowerCase()} ${foot.toUpperCase()}` };
  const isFoot = feet.some((one) => one === head.image.toUpperCase());
  if (
    line.items.some((item) => item.kind === 'text' && picture.test(item.image)) &&
    line.items.some((item) => footNamed(item) !== null)
  )
    return { row: findBlock('film') as BlockRow, usual: isFoot ? `film ${head.image.toUpperCase()}` : null };
  if (!isFoot) return undefined;
  const named = second?.kind === 'word' ? innerBlocks.get(second.image.toLowerCase()) : undefined;
  if (named) return { row: named, usual: null };
  const alone = line.items.every((item) => footNamed(item) !== null);
  return alone && open && open.word !== 'read' && open.level > 0
    ? { row: open, usual: `${open.word} ${head.image.toUpperCase()}` }
    : undefined;
}
