import { isGroup, type Entry } from '../notation/tree.ts';

/** The entries of a block with every guest among the lines of another block moved behind it, to the block that it belongs to. */
export function guestsAtHome(entries: readonly Entry[]): readonly Entry[] {
  return entries.some(hasGuests) ? settled(entries) : entries;
}

function hasGuests(entry: Entry): boolean {
  return isGroup(entry) && entry.entries.some((inner) => inner.guestOf !== undefined || hasGuests(inner));
}

function settled(entries: readonly Entry[]): Entry[] {
  return entries.flatMap((entry) => {
    if (!isGroup(entry)) return [entry];
    const inside = settled(entry.entries);
    const isGuest = ({ guestOf }: Entry): boolean => guestOf !== undefined && guestOf !== entry.row.word;
    const own = inside.filter((inner) => !isGuest(inner));
    return own.length === inside.length && !hasGuests(entry)
      ? [entry]
      : [{ ...entry, entries: own }, ...inside.filter(isGuest)];
  });
}
